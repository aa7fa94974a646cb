// docs/schema/journal.schema.json holds for what is written, and for nothing else.
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "catch2/catch.hpp"
#include "written.hpp"

using namespace aftercut;
using Json = nlohmann::json;

namespace {

bool holds(const Json& line) {
  static const auto schema = [] {
    std::ifstream in{std::string{AFTERCUT_SOURCE_DIR} + "/docs/schema/journal.schema.json"};
    const Json json = Json::parse(in);
    auto read = std::make_unique<valijson::Schema>();
    valijson::SchemaParser{}.populateSchema(valijson::adapters::NlohmannJsonAdapter{json}, *read);
    return read;
  }();
  return valijson::Validator{}.validate(*schema, valijson::adapters::NlohmannJsonAdapter{line}, nullptr);
}

std::vector<Json> lines() {
  std::istringstream in{journal::log_text(test::one_of_each())};
  std::vector<Json> all;
  for (std::string line; std::getline(in, line);) all.push_back(Json::parse(line));
  return all;
}

}  // namespace

TEST_CASE("every kind of line holds against the schema", "[cross]") {
  for (const Json& line : lines()) {
    CAPTURE(line.dump());
    CHECK(holds(line));
  }
}

TEST_CASE("a line with another key, without a key or with another kind's data does not", "[cross]") {
  const auto all = lines();
  for (const Json& line : all) {
    CAPTURE(line.dump());
    for (const char* place : {"/unheard", "/data/unheard"}) {
      Json more = line;
      more[Json::json_pointer{place}] = 1;
      CHECK_FALSE(holds(more));
    }
    for (const char* key : {"seq", "id", "done_on", "recorded_at", "by", "kind", "data", "sum"}) {
      Json less = line;
      less.erase(key);
      CHECK_FALSE(holds(less));
    }
  }
  Json rain = all[3];
  rain["data"] = {{"mm", -1.0}};
  CHECK_FALSE(holds(rain));
  rain["data"] = all[1]["data"];
  CHECK_FALSE(holds(rain));
}

#pragma once
// Where a JSON value departs from one of the project's schemas.

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>
#include <vector>

namespace aftercut::test {

/// Every place where `value` departs from docs/schema/`file`.
inline std::vector<std::string> departures_from(const std::string& file, const nlohmann::json& value) {
  std::ifstream in{std::string{AFTERCUT_SOURCE_DIR} + "/docs/schema/" + file};
  const nlohmann::json schema_text = nlohmann::json::parse(in);
  valijson::Schema schema;
  valijson::SchemaParser{}.populateSchema(valijson::adapters::NlohmannJsonAdapter{schema_text}, schema);
  valijson::ValidationResults results;
  valijson::Validator{}.validate(schema, valijson::adapters::NlohmannJsonAdapter{value}, &results);
  std::vector<std::string> out;
  valijson::ValidationResults::Error error;
  while (results.popError(error)) {
    std::string place;
    for (const auto& part : error.context) place += part;
    out.push_back(place + ": " + error.description);
  }
  return out;
}

}  // namespace aftercut::test

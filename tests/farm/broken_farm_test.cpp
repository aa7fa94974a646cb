// Farms broken at many places: the reader gives a value or issues, and never fails by itself.

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

FarmFiles brief_farm() {
  FarmFiles files = small_farm();
  files.weather = weather_csv(make_date(2020, 9, 1), 30);
  files.farm["field_values"] = Json::parse(
      R"([{"id": "B", "lease": {"from": "2026-11-20", "until": "2027-01-31", "pays": "22 USD/acre"},
    "links": {"fills_from": ["A"]}, "not_allowed": [{"method": "bale", "why": "landlord"}]}])");
  return files;
}

void gather(const Json& value, const Json::json_pointer& at, std::vector<Json::json_pointer>& out) {
  if (!at.empty()) out.push_back(at);
  if (value.is_object())
    for (const auto& item : value.items()) gather(item.value(), at / item.key(), out);
  if (value.is_array())
    for (std::size_t i = 0; i < value.size(); ++i) gather(value[i], at / i, out);
}

/// Whole issues, or a value.
void is_handled(const Result<farm::Problem>& read) {
  for (const Issue& i : read.issues())
    if (i.file.empty() || i.place.empty() || i.found.empty() || i.expected.empty() || i.fix.empty())
      FAIL_CHECK(to_text(i));
}

}  // namespace

TEST_CASE("every value of farm.json, replaced by values of other kinds", "[identity]") {
  const FarmFiles good = brief_farm();
  REQUIRE(read_farm(good).ok());
  std::vector<Json::json_pointer> places;
  gather(good.farm, Json::json_pointer{}, places);
  REQUIRE(places.size() > 70);
  const std::vector<Json> others{nullptr, -1, "0 x", Json::array(), Json::object()};
  std::size_t next = 0, refused = 0;
  for (const auto& place : places)
    for (int k = 0; k < 2; ++k) {
      FarmFiles files = good;
      files.farm[place] = others[next++ % others.size()];
      INFO(place.to_string() << " " << files.farm[place].dump());
      Result<farm::Problem> read = Issues{Issue{}};
      REQUIRE_NOTHROW(read = read_farm(files));
      is_handled(read);
      refused += read.ok() ? 0 : 1;
    }
  CHECK(refused > places.size() * 16 / 10);
}

TEST_CASE("farm.json cut off at many places", "[identity]") {
  FarmFiles files = brief_farm();
  const std::string text = files.farm.dump(1);
  for (std::size_t end = 0; end < text.size() - 1; end += text.size() / 40) {
    files.others["farm.json"] = text.substr(0, end);
    const Result<farm::Problem> read = read_farm(files);
    CHECK_FALSE(read.ok());
    is_handled(read);
  }
}

TEST_CASE("every cell of the field layer, replaced by nonsense", "[identity]") {
  const FarmFiles good = brief_farm();
  for (const char* id : {"A", "B", "C"}) {
    FarmFiles copy = good;
    const Json properties = field(copy, id);
    for (const auto& item : properties.items()) {
      for (const Json& other : {Json("\xC3\xA9 -"), Json(-99999), Json(nullptr)}) {
        FarmFiles files = good;
        field(files, id)[item.key()] = other;
        INFO(id << " " << item.key() << " " << other.dump());
        Result<farm::Problem> read = Issues{Issue{}};
        REQUIRE_NOTHROW(read = read_farm(files));
        is_handled(read);
      }
    }
  }
}

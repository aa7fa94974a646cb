#include "json_in.hpp"

#include <cmath>
#include <limits>

#include "aftercut/plan/decision.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* write_again = "write the plan again";
const Json no_value;
const Json no_rows = Json::array();

std::string shown(const Json& value) {
  std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  return text.size() > 60 ? text.substr(0, 57) + "..." : text;
}

template <class T>
Names names_of(const std::vector<T>& all) {
  Names names;
  for (std::size_t k = 0; k < all.size(); ++k) names[all[k].id.value] = static_cast<int>(k);
  return names;
}

}  // namespace

Ids ids_of(const farm::Farm& farm) {
  return {names_of(farm.fields),   names_of(farm.book.recipes), names_of(farm.book.operations),
          names_of(farm.tractors), names_of(farm.implements),   names_of(farm.operators)};
}

JsonIn::JsonIn(std::string file, const farm::Farm& farm)
    : file_{std::move(file)}, farm_{&farm}, ids_{ids_of(farm)} {}

void JsonIn::issue(std::string place, std::string found, std::string expected, std::string fix) {
  issues_.push_back({file_, std::move(place), std::move(found), std::move(expected), std::move(fix)});
}

Json JsonIn::parse(const std::string& text, const std::string& place) {
  Json value = Json::parse(text, nullptr, false);
  if (value.is_discarded() || !value.is_object()) {
    issue(place, "text that is not a JSON object", "one JSON object", write_again);
    return Json::object();
  }
  return value;
}

const Json& JsonIn::get(const Json& object, const char* key, const std::string& place) {
  if (object.is_object()) {
    const auto member = object.find(key);
    if (member != object.end()) return *member;
  }
  issue(place, "nothing", std::string{"the key \""} + key + "\"", write_again);
  return no_value;
}

double JsonIn::number(const Json& object, const char* key, const std::string& place) {
  const std::size_t before = issues_.size();
  const Json& value = get(object, key, place);
  if (issues_.size() > before) return 0.0;
  if (value.is_number() && std::isfinite(value.get<double>())) return value.get<double>();
  issue(place + "." + key, shown(value), "a number", write_again);
  return 0.0;
}

std::int64_t JsonIn::whole(const Json& object, const char* key, const std::string& place) {
  const std::size_t before = issues_.size();
  const Json& value = get(object, key, place);
  if (issues_.size() > before) return 0;
  if (value.is_number_integer()) return value.get<std::int64_t>();
  issue(place + "." + key, shown(value), "a whole number", write_again);
  return 0;
}

int JsonIn::small(const Json& object, const char* key, const std::string& place) {
  const std::int64_t value = whole(object, key, place);
  constexpr std::int64_t most = 1'000'000'000;
  if (value >= -most && value <= most) return static_cast<int>(value);
  issue(place + "." + key, std::to_string(value), "a smaller number", write_again);
  return 0;
}

std::int64_t JsonIn::cents(const Json& object, const char* key, const std::string& place) {
  const double money = number(object, key, place);
  if (std::abs(money) < 1e13) return std::llround(money * 100.0);
  issue(place + "." + key, "too much money", "an amount below 1e13", write_again);
  return 0;
}

bool JsonIn::truth(const Json& object, const char* key, const std::string& place) {
  const std::size_t before = issues_.size();
  const Json& value = get(object, key, place);
  if (issues_.size() > before) return false;
  if (value.is_boolean()) return value.get<bool>();
  issue(place + "." + key, shown(value), "true or false", write_again);
  return false;
}

std::string JsonIn::text(const Json& object, const char* key, const std::string& place) {
  const std::size_t before = issues_.size();
  const Json& value = get(object, key, place);
  if (issues_.size() > before) return {};
  if (value.is_string()) return value.get<std::string>();
  issue(place + "." + key, shown(value), "a text", write_again);
  return {};
}

const Json& JsonIn::array(const Json& object, const char* key, const std::string& place) {
  const std::size_t before = issues_.size();
  const Json& value = get(object, key, place);
  if (issues_.size() > before) return no_rows;
  if (value.is_array()) return value;
  issue(place + "." + key, shown(value), "a list", write_again);
  return no_rows;
}

int JsonIn::day(const Json& object, const char* key, const std::string& place, bool may_be_null) {
  const std::size_t before = issues_.size();
  const Json& value = get(object, key, place);
  if (issues_.size() > before || (may_be_null && value.is_null())) return plan::none;
  const auto date = value.is_string() ? parse_iso_date(value.get<std::string>()) : std::nullopt;
  if (date) return farm_->season.day(*date);
  issue(place + "." + key, shown(value), "a date as 2026-10-03", write_again);
  return plan::none;
}

int JsonIn::index(const Json& value, const Names& names, const char* kind, const std::string& place,
                  bool may_be_null) {
  if (may_be_null && value.is_null()) return plan::none;
  if (value.is_string()) {
    const auto known = names.find(value.get<std::string>());
    if (known != names.end()) return known->second;
  }
  issue(place, shown(value), std::string{"the id of a "} + kind + " of the farm",
        "plan the farm again, or give the farm that was planned");
  return plan::none;
}

}  // namespace aftercut::audit

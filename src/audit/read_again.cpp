#include <fmt/format.h>

#include "again.hpp"
#include "read_decision.hpp"

namespace aftercut::audit {
namespace {

int read_method_id(JsonIn& in, const Json& object, const char* key, const std::string& place) {
  return in.index(in.get(object, key, place), in.ids().recipes, "method", place + "." + key, true);
}

std::vector<plan::Move> read_moves(JsonIn& in, const Json& told, const char* key) {
  std::vector<plan::Move> all;
  const Json& rows = in.array(told, key, "again");
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string place = fmt::format("again.{}[{}]", key, k);
    all.push_back({.field = in.index(in.get(rows[k], "field", place), in.ids().fields, "field", place, false),
                   .from = read_method_id(in, rows[k], "from", place),
                   .to = read_method_id(in, rows[k], "to", place),
                   .gain_cents = in.cents(rows[k], "gain", place),
                   .needed = in.truth(rows[k], "needed", place),
                   .made = in.truth(rows[k], "made", place)});
  }
  return all;
}

plan::Move read_order_move(JsonIn& in, const Json& told, const char* key) {
  const Json& row = in.get(told, key, "again");
  const std::string place = std::string{"again."} + key;
  return {.field = plan::none,
          .gain_cents = in.cents(row, "gain", place),
          .needed = in.truth(row, "needed", place),
          .made = in.truth(row, "made", place)};
}

plan::Decision read_stood(JsonIn& in, const Json& told) {
  const std::string place = "again.stood_plan";
  const Json& stood = in.get(told, "stood_plan", "again");
  plan::Decision d;
  d.method.resize(in.farm().fields.size(), plan::none);
  each_field_once(in, in.array(stood, "methods", place), "field", place + ".methods",
                  [&](const Json& row, std::size_t field, const std::string& here) {
                    d.method[field] = read_method_id(in, row, "method", here);
                  });
  d.autumn_order = read_field_list(in, stood, "autumn", place);
  d.spring_order = read_field_list(in, stood, "spring", place);
  return d;
}

plan::StoodAndNow read_pair(JsonIn& in, const Json& row, const char* key, const std::string& place) {
  const Json& pair = in.get(row, key, place);
  const auto day = [&](const char* which) {
    const int found = in.day(pair, which, place + "." + key, true);
    return found == plan::none ? std::nullopt : std::optional<int>{found};
  };
  return {day("stood"), day("now")};
}

plan::OrderMoved read_order(JsonIn& in, const Json& row, const std::string& place) {
  const Json& value = in.get(row, "order", place);
  if (value == "autumn") return plan::OrderMoved::autumn;
  if (value == "spring") return plan::OrderMoved::spring;
  if (!value.is_null())
    in.issue(place + ".order", value.dump(), "autumn, spring or null", "write the plan again");
  return plan::OrderMoved::neither;
}

std::vector<plan::DayMove> read_days(JsonIn& in, const Json& told) {
  std::vector<plan::DayMove> all;
  const Json& rows = in.array(told, "days", "again");
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::string place = fmt::format("again.days[{}]", k);
    all.push_back({.field = in.index(in.get(rows[k], "field", place), in.ids().fields, "field", place, false),
                   .first = read_pair(in, rows[k], "first", place),
                   .ready = read_pair(in, rows[k], "ready", place),
                   .order = read_order(in, rows[k], place),
                   .before = read_field_list(in, rows[k], "before", place)});
  }
  return all;
}

}  // namespace

std::optional<plan::Again> read_again(JsonIn& in, const Json& root) {
  if (!root.is_object() || !root.contains("again")) return std::nullopt;
  const Json& row = root["again"];
  plan::Again a;
  a.stood = read_stood(in, row);
  a.barred = read_moves(in, row, "barred");
  a.moves = read_moves(in, row, "moves");
  a.autumn_order = read_order_move(in, row, "autumn_order");
  a.spring_order = read_order_move(in, row, "spring_order");
  a.stood_cents = in.cents(row, "stood", "again");
  a.asked_per_ha = in.number(row, "asked_per_ha", "again");
  a.stood_chance.resize(in.farm().fields.size(), -1.0);  // of fields that are not told
  for (const Json& chance : in.array(row, "stood_chances", "again")) {
    const int field = in.index(in.get(chance, "field", "again.stood_chances"), in.ids().fields, "field",
                               "again.stood_chances", false);
    const double stood = in.number(chance, "stood", "again.stood_chances");
    if (field != plan::none) a.stood_chance[static_cast<std::size_t>(field)] = stood;
  }
  a.days = read_days(in, row);
  return a;
}

}  // namespace aftercut::audit

// bound.json: the multipliers of the lower bound and what every method costs under them. Numbers are not
// rounded: each reads back to the same double, so that the bound can be worked out again.

#include <cmath>

#include "aftercut/core/require.hpp"
#include "aftercut/report/report.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

json exact_json(double cents) {
  require(std::isfinite(cents), "a number to be written is finite");
  return cents;
}

json exact_list(const std::vector<double>& all) {
  json out = json::array();
  for (const double cents : all) out.push_back(exact_json(cents));
  return out;
}

json id_of(const farm::Farm& farm, const plan::MinutePrice& p) {
  switch (p.resource) {
    case plan::Resource::tractor:
      return id_or_null(farm.tractors, p.index);
    case plan::Resource::implement:
      return id_or_null(farm.implements, p.index);
    case plan::Resource::person:
      return id_or_null(farm.operators, p.index);
  }
  fail("unknown kind of resource");
}

const char* kind_words(plan::Resource kind) {
  switch (kind) {
    case plan::Resource::tractor:
      return "tractor";
    case plan::Resource::implement:
      return "implement";
    case plan::Resource::person:
      return "operator";
  }
  fail("unknown kind of resource");
}

/// One entry for each resource that is charged on some day of the year.
json multipliers_json(const farm::Farm& farm, const plan::BoundYear& year) {
  json out = json::array();
  const plan::MinutePrice* before = nullptr;
  for (const plan::MinutePrice& p : year.prices) {
    if (before == nullptr || before->resource != p.resource || before->index != p.index)
      out.push_back({{"kind", kind_words(p.resource)},
                     {"id", id_of(farm, p)},
                     {"days", json::array()},
                     {"cents_a_minute", json::array()}});
    out.back()["days"].push_back(iso(farm.season.date(p.day)));
    out.back()["cents_a_minute"].push_back(exact_json(p.cents));
    before = &p;
  }
  return out;
}

json bound_field_json(const farm::Farm& farm, std::size_t f, const plan::FieldFloor& field) {
  json methods = json::array();
  for (const plan::MethodFloor& floor : field.methods) {
    json method{{"id", id_or_null(farm.book.recipes, floor.method)}, {"cents", exact_json(floor.cents)}};
    if (!floor.by_year.empty()) method["by_year_cents"] = exact_list(floor.by_year);
    methods.push_back(method);
  }
  return {{"id", farm.fields[f].id.value},
          {"method", id_or_null(farm.book.recipes, field.method)},
          {"methods", methods}};
}

/// A list with one entry a line.
std::string lines_of(const json& list) {
  std::string out = "[";
  for (const json& entry : list) out += (out.size() > 1 ? ",\n  " : "\n  ") + entry.dump();
  return out + "\n ]";
}

}  // namespace

std::string bound_json(const farm::Problem& problem, const plan::PlannedYears& planned) {
  require(planned.bound.has_value(), "a bound to be written has its proof");
  const plan::BoundProof& b = *planned.bound;
  const farm::Farm& farm = problem.farm;
  json years = json::array(), fields = json::array();
  for (const plan::BoundYear& year : b.years)
    years.push_back({{"year", year.year},
                     {"paid_back_cents", exact_json(year.paid_back)},
                     {"multipliers", multipliers_json(farm, year)}});
  for (std::size_t f = 0; f < b.fields.size(); ++f) fields.push_back(bound_field_json(farm, f, b.fields[f]));
  const json head{{"schema", "aftercut-bound-1"},
                  {"version", planned.plan.version},
                  {"currency", farm.currency},
                  {"rounds", b.rounds},
                  {"bound_cents", b.cents},
                  {"bound_cents_a_year", b.cents_a_year},
                  {"without_multipliers_cents", b.without_prices}};
  std::string out = "{\n";
  for (const auto& [key, value] : head.items()) out += fmt::format(" \"{}\": {},\n", key, value.dump());
  return out + fmt::format(" \"years\": {},\n \"fields\": {}\n}}\n", lines_of(years), lines_of(fields));
}

}  // namespace aftercut::report

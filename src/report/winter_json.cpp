// Ready days year by year, and straw and seedbed through the winter, as JSON. A column for each figure, a
// morning a week.

#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr int mass_digits = 0, share_digits = 3;

struct SpreadColumns {
  json p10 = json::array(), p50 = json::array(), p90 = json::array();

  void add(const plan::Spread& s, int digits) {
    p10.push_back(rounded(s.p10, digits));
    p50.push_back(rounded(s.p50, digits));
    p90.push_back(rounded(s.p90, digits));
  }
  [[nodiscard]] json all() const { return {{"p10", p10}, {"p50", p50}, {"p90", p90}}; }
};

}  // namespace

json ready_days_json(const farm::Farm& farm, const farm::Field& field, const plan::FieldPlan& p) {
  json out = json::array();
  for (const plan::ReadyIn& in : p.ready_days)
    out.push_back({{"year", in.year}, {"ready", ready_json(farm, field, in.day)}});
  return out;
}

json winter_json(const farm::Farm& farm, const farm::Field& field, const plan::FieldPlan& p) {
  if (p.winter.empty()) return nullptr;
  const soil::Profile& soil = farm.soils.at(field.soil);
  SpreadColumns straw, pores;
  json under_water = json::array();
  for (const plan::WinterWeek& week : p.winter) {
    straw.add(week.straw_kg_per_ha, mass_digits);
    pores.add(week.pores_full, share_digits);
    under_water.push_back(rounded(week.under_water, share_digits));
  }
  return {{"first", iso(farm.season.date(p.winter.front().day))},
          {"every_days", plan::days_between_winter_mornings},
          {"workable_below", rounded(soil.wet_limit / soil.saturation, share_digits)},
          {"straw_kg_per_ha", straw.all()},
          {"pores_full", pores.all()},
          {"under_water", under_water}};
}

}  // namespace aftercut::report

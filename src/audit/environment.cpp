// The figures of next crop and birds over the years, from the replayed years, with sums of their own.

#include <algorithm>
#include <cmath>

#include "money.hpp"
#include "next_crop.hpp"
#include "year_columns.hpp"

namespace aftercut::audit {
namespace {

// plan.json prints these figures with 3 decimals.
constexpr double printed_tolerance = 5.01e-4;
constexpr double rule_of_thumb_kg_per_ha_day = 112.085;  // Source: CapitalPress (read)
constexpr double in_ground_weight = 0.5, off_by_flood = 0.3, days_of_full_flood = 60.0;  // CarryOver

/// Columns of what the years say.
struct Columns {
  Column taken_up, given_back, held, grain, flooded, birds, disease, early, late_in, late, late_high;
};

double disease_of(const farm::Field& field, const CropYear& y) {
  const plan::NextCrop& c = y.run.next_crop;
  if (y.untouched_on_top <= 0.0) return 0.0;
  const double straw = c.spring_on_top_kg_per_ha + in_ground_weight * c.spring_in_ground_kg_per_ha;
  const double flood = off_by_flood * std::min(1.0, c.flooded_days / days_of_full_flood);
  return field.disease.weight * std::min(1.0, straw / y.untouched_on_top) * (1.0 - flood);
}

void add_year(Columns& c, const farm::Farm& farm, const farm::Field& field, const CropYear& y) {
  const plan::NextCrop& n = y.run.next_crop;
  c.taken_up.add(n.n_taken_up_kg_per_ha, y.shown);
  c.given_back.add(n.n_given_back_kg_per_ha, y.shown);
  c.held.add(n.n_held_kg_per_ha, y.shown);
  c.grain.add(n.waste_grain_kg_per_ha, y.shown);
  c.flooded.add(n.flooded_days, y.shown);
  c.birds.add(n.bird_days, y.shown);
  c.early.add(n.applied_early_kg_per_ha, y.shown);
  c.late_in.add(n.applied_late_kg_per_ha, y.shown);
  c.disease.add(disease_of(field, y), y.shown);
  double loss = 0.0, high = 0.0;
  if (y.run.status == plan::Status::late) {
    const Date ready = farm.season.date(y.run.ready_day);
    if (!field.next.late_curve.empty()) loss = loss_on(field.next.late_curve, ready);
    high = std::max(loss, rule_of_thumb_kg_per_ha_day * (ready - field.next.planting));
  }
  c.late.add(loss, y.shown);
  c.late_high.add(high, y.shown);
}

}  // namespace

Findings check_environment(const Facts& facts, const Place& place, int field, const plan::Environment& said,
                           const std::vector<CropYear>& years) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const farm::Field& land = farm.fields[static_cast<std::size_t>(field)];
  Columns c;
  for (const CropYear& y : years) add_year(c, farm, land, y);
  const auto same = [&](double found, double expected, const char* name) {
    Place where = place;
    where.what += std::string(" ") + name;
    f.expect_near(found, expected, printed_tolerance, "wrong figure of the next crop", where);
  };
  const auto years_same = [&](const plan::YearFigure& found, const Column& column, const char* name) {
    same(found.mean, column.mean(), name);
    same(found.p10, column.at(0.1), name);
    same(found.p90, column.at(0.9), name);
  };
  years_same(said.n_taken_up, c.taken_up, "nitrogen taken up");
  years_same(said.n_given_back, c.given_back, "nitrogen given back");
  years_same(said.n_held, c.held, "nitrogen held");
  years_same(said.waste_grain, c.grain, "waste grain");
  years_same(said.flooded_days, c.flooded, "flooded days");
  years_same(said.bird_days, c.birds, "days for waterfowl");
  same(said.applied_early, c.early.mean(), "straw worked in early");
  same(said.applied_late, c.late_in.mean(), "straw worked in late");
  same(said.late_loss, c.late.mean(), "late loss");
  same(said.late_loss_high, c.late_high.mean(), "late loss, high");
  if (said.disease) years_same(*said.disease, c.disease, "disease index");
  const bool rice = land.next.kind == farm::NextUseKind::rice;
  f.expect(said.disease.has_value() == rice, "wrong figure of the next crop", place, [&] {
    return Texts{rice ? "no disease index" : "a disease index", rice ? "one: rice follows" : "none"};
  });
  return f;
}

}  // namespace aftercut::audit

// The figures of air, next crop and birds over the years, from the replayed years, with sums of their own.

#include <algorithm>
#include <cmath>

#include "money.hpp"
#include "next_crop.hpp"

namespace aftercut::audit {
namespace {

// plan.json prints these figures with 3 decimals.
constexpr double printed_tolerance = 5.01e-4;
constexpr double rule_of_thumb_kg_per_ha_day = 112.085;  // Source: CapitalPress (read)
constexpr double in_ground_weight = 0.5, off_by_flood = 0.3, days_of_full_flood = 60.0;  // CarryOver
constexpr double n2o_share = 0.003,
                 n2o_share_drained = 0.005;  // Source: IPCC2019 Table 11.1 (read second-hand)

double quantile_of(std::vector<double> x, double p) {
  std::sort(x.begin(), x.end());
  const double at = p * static_cast<double>(x.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  return low + 1 < x.size() ? x[low] + (at - static_cast<double>(low)) * (x[low + 1] - x[low]) : x.back();
}

struct Column {
  double sum = 0.0;
  std::vector<double> all, shown;
  void add(double x, bool is_shown) {
    sum += x;
    all.push_back(x);
    if (is_shown) shown.push_back(x);
  }
  [[nodiscard]] double mean() const { return all.empty() ? 0.0 : sum / static_cast<double>(all.size()); }
  [[nodiscard]] double at(double p) const {
    return all.empty() ? 0.0 : quantile_of(shown.empty() ? all : shown, p);
  }
};

/// Columns of what the years say.
struct Columns {
  Column taken_up, given_back, held, grain, flooded, birds, disease, early, late_in, late, late_high;
  Column methane, methane_low, methane_high, co2e;  ///< of the years in which rice follows, else of all
  int rice_years = 0;
};

/// The water before the crop, as the farm reads a winter flood.
burn::Preseason before_crop(const farm::Farm& farm, const farm::Field& field, const plan::FieldRun& run) {
  const int starts = std::max(farm.season.day(field.next.planting), run.ready_day + 1);
  int dry_since = farm.season.day(field.summer_drain);
  if (run.next_crop.long_flood_end != plan::none) {
    dry_since = run.next_crop.long_flood_end + 1;
    if (farm.environment.winter_flood == farm::WinterFlood::flooded || starts - dry_since <= 30)
      return burn::Preseason::flooded;
  }
  const int dry = starts - dry_since;
  return dry > 365   ? burn::Preseason::dry_over_365
         : dry > 180 ? burn::Preseason::dry_over_180
                     : burn::Preseason::dry_under_180;
}

double disease_of(const farm::Field& field, const CropYear& y) {
  const plan::NextCrop& c = y.run.next_crop;
  if (y.untouched_on_top <= 0.0) return 0.0;
  const double straw = c.spring_on_top_kg_per_ha + in_ground_weight * c.spring_in_ground_kg_per_ha;
  const double flood = off_by_flood * std::min(1.0, c.flooded_days / days_of_full_flood);
  return field.disease.weight * std::min(1.0, straw / y.untouched_on_top) * (1.0 - flood);
}

void add_air(Columns& c, const farm::Farm& farm, const farm::Field& field, const CropYear& y) {
  const farm::EnvironmentSettings& e = farm.environment;
  const plan::NextCrop& n = y.run.next_crop;
  const burn::Warming w = burn::warming_of(e.warming);
  const burn::BurnedHow how{n.burned_in_rows, n.burned_moisture_percent};
  const auto burned_t = y.run.burned_kg_per_ha / 1000.0;
  double co2e = burned_t * (w.ch4 * burn::factor_g_per_kg(burn::Gas::ch4, e.burn_factors, how).mid +
                            w.n2o * burn::factor_g_per_kg(burn::Gas::n2o, e.burn_factors, how).mid);
  co2e += burn::diesel_co2_kg(Litre{y.run.fuel_l}, e.diesel).mid / field.area.value();
  const bool rice = field.next.kind == farm::NextUseKind::rice &&
                    (y.run.status == plan::Status::ready || y.run.status == plan::Status::late);
  if (rice) {
    ++c.rice_years;
    const Uncertain methane = burn::season_methane({n.applied_early_kg_per_ha, n.applied_late_kg_per_ha},
                                                   before_crop(farm, field, y.run), e.methane);
    c.methane.add(methane.mid, y.shown);
    c.methane_low.add(methane.low, y.shown);
    c.methane_high.add(methane.high, y.shown);
    const double nitrogen =
        (n.applied_early_kg_per_ha + n.applied_late_kg_per_ha) * farm.decay.nitrogen_g_per_kg / 1000.0;
    const double share = e.methane.water == burn::SeasonWater::continuous ? n2o_share : n2o_share_drained;
    co2e += w.ch4 * methane.mid + w.n2o * nitrogen * share * 44.0 / 28.0;
    c.co2e.add(co2e, y.shown);
  }
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
  add_air(c, farm, field, y);
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
  same(said.rice_years, c.rice_years, "years in which rice follows");
  same(said.methane.mean, c.methane.mean(), "methane");
  same(said.methane.low, c.methane_low.mean(), "methane, low");
  same(said.methane.high, c.methane_high.mean(), "methane, high");
  if (c.rice_years > 0) years_same({said.co2e.mean, said.co2e.p10, said.co2e.p90}, c.co2e, "CO2e");
  if (said.disease) years_same(*said.disease, c.disease, "disease index");
  const bool rice = land.next.kind == farm::NextUseKind::rice;
  f.expect(said.disease.has_value() == rice, "wrong figure of the next crop", place, [&] {
    return Texts{rice ? "no disease index" : "a disease index", rice ? "one: rice follows" : "none"};
  });
  return f;
}

}  // namespace aftercut::audit

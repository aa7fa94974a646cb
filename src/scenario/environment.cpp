#include "aftercut/scenario/environment.hpp"

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/straw/pools.hpp"

namespace aftercut::scenario {
namespace {

/// What one year says, per hectare.
struct YearAir {
  burn::BurnAir burned{};
  bool rice = false;  ///< a rice crop follows
  Uncertain methane, methane_dry, methane_flooded, n2o;
  Uncertain co2e_burn, co2e_methane, co2e_n2o, co2e_diesel, co2e;
  double straw_factor = 1.0;
};

struct Counted {
  std::vector<std::size_t> all, shown;  ///< years
};

template <class Get>
plan::Figure figure_of(const Counted& years, Get get) {
  plan::Figure f;
  if (years.all.empty()) return f;
  for (const std::size_t y : years.all) {
    const Uncertain u = get(y);
    f.mean += u.mid, f.low += u.low, f.high += u.high;
  }
  const auto n = static_cast<double>(years.all.size());
  f.mean /= n, f.low /= n, f.high /= n;
  std::vector<double> mids;
  for (const std::size_t y : years.shown.empty() ? years.all : years.shown) mids.push_back(get(y).mid);
  f.p10 = quantile(mids, 0.1), f.p90 = quantile(mids, 0.9);
  return f;
}

template <class Get>
plan::YearFigure year_figure_of(const Counted& years, Get get) {
  const plan::Figure f = figure_of(years, [&](std::size_t y) { return exactly(get(y)); });
  return {f.mean, f.p10, f.p90};
}

class Sums {
 public:
  explicit Sums(const EnvironmentInput& in)
      : in_{in}, farm_{*in.farm}, field_{in.farm->fields[in.field]}, runs_{*in.runs} {
    for (std::size_t y = 0; y < runs_.size(); ++y) every_.all.push_back(y);
    every_.shown = *in.shown;
    for (const plan::FieldRun& run : runs_) air_.push_back(air_of(run));
    for (const std::size_t y : every_.all)
      if (air_[y].rice) rice_.all.push_back(y);
    for (const std::size_t y : every_.shown)
      if (air_[y].rice) rice_.shown.push_back(y);
  }

  [[nodiscard]] plan::Environment result() const {
    plan::Environment e;
    for (std::size_t g = 0; g < burn::gases; ++g)
      e.burned[g] = figure_of(every_, [&](std::size_t y) { return air_[y].burned[g]; });
    add_air(e);
    add_nitrogen(e);
    add_replacement(e);
    if (next_is_rice()) e.disease = year_figure_of(every_, [&](std::size_t y) { return disease_of(y); });
    e.waste_grain = of_crop(&plan::NextCrop::waste_grain_kg_per_ha);
    e.flooded_days = of_crop(&plan::NextCrop::flooded_days);
    e.bird_days = of_crop(&plan::NextCrop::bird_days);
    add_late(e);
    return e;
  }

 private:
  [[nodiscard]] bool next_is_rice() const { return field_.next.kind == farm::NextUseKind::rice; }

  template <class T>
  [[nodiscard]] plan::YearFigure of_crop(T plan::NextCrop::*member) const {
    return year_figure_of(every_,
                          [&](std::size_t y) { return static_cast<double>(runs_[y].next_crop.*member); });
  }

  [[nodiscard]] YearAir air_of(const plan::FieldRun& run) const {
    const farm::EnvironmentSettings& s = farm_.environment;
    const plan::NextCrop& c = run.next_crop;
    YearAir a;
    a.burned = burn::burn_air(Kilogram{run.burned_kg_per_ha}, s.burn_factors,
                              {c.burned_in_rows, c.burned_moisture_percent});
    a.co2e_burn = burn::burn_co2e_kg(a.burned, s.warming);
    a.co2e_diesel = burn::diesel_co2_kg(Litre{run.fuel_l / field_.area.value()}, s.diesel);
    a.rice = next_is_rice() && (run.status == plan::Status::ready || run.status == plan::Status::late);
    if (a.rice) add_rice(a, run);
    a.co2e = sum_of_independent(sum_of_independent(a.co2e_burn, a.co2e_methane),
                                sum_of_independent(a.co2e_n2o, a.co2e_diesel));
    return a;
  }

  void add_rice(YearAir& a, const plan::FieldRun& run) const {
    const farm::EnvironmentSettings& s = farm_.environment;
    const plan::NextCrop& c = run.next_crop;
    const burn::StrawApplied applied{c.applied_early_kg_per_ha, c.applied_late_kg_per_ha};
    const int starts = std::max(farm_.season.day(field_.next.planting), run.ready_day + 1);
    const auto dry = burn::dry_preseason(starts - farm_.season.day(field_.summer_drain));
    const bool flood = c.long_flood_end != plan::none;
    const int since = flood ? starts - c.long_flood_end - 1 : 0;
    const auto flooded = flood ? burn::Preseason::flooded : dry;
    const auto by_dates = !flood ? dry : since <= burn::preseason_days ? flooded : burn::dry_preseason(since);
    const auto methane = [&](burn::Preseason p) { return burn::season_methane(applied, p, s.methane); };
    a.methane_dry = methane(dry);
    a.methane_flooded = methane(flooded);
    a.methane = methane(s.winter_flood == farm::WinterFlood::flooded ? flooded : by_dates);
    a.straw_factor = burn::straw_factor(applied, s.methane).mid;
    const double in_ground = c.applied_early_kg_per_ha + c.applied_late_kg_per_ha;
    a.n2o = burn::residue_n2o(KgPerHa{in_ground * farm_.decay.nitrogen_g_per_kg / 1000.0}, s.methane.water);
    const burn::Warming w = burn::warming_of(s.warming);
    a.co2e_methane = w.ch4 * a.methane;
    a.co2e_n2o = w.n2o * a.n2o;
  }

  void add_air(plan::Environment& e) const {
    const auto of = [&](const Counted& years, Uncertain YearAir::*part) {
      return figure_of(years, [&](std::size_t y) { return air_[y].*part; });
    };
    e.rice_years = static_cast<int>(rice_.all.size());
    e.methane = of(rice_, &YearAir::methane);
    e.methane_dry_winter = of(rice_, &YearAir::methane_dry);
    e.methane_flooded_winter = of(rice_, &YearAir::methane_flooded);
    e.residue_n2o = of(rice_, &YearAir::n2o);
    if (!rice_.all.empty())
      e.straw_factor = year_figure_of(rice_, [&](std::size_t y) { return air_[y].straw_factor; }).mean;
    e.applied_early = of_crop(&plan::NextCrop::applied_early_kg_per_ha).mean;
    e.applied_late = of_crop(&plan::NextCrop::applied_late_kg_per_ha).mean;
    const Counted& counted = rice_.all.empty() ? every_ : rice_;
    e.co2e_burn = of(counted, &YearAir::co2e_burn);
    e.co2e_methane = of(counted, &YearAir::co2e_methane);
    e.co2e_n2o = of(counted, &YearAir::co2e_n2o);
    e.co2e_diesel = of(counted, &YearAir::co2e_diesel);
    e.co2e = of(counted, &YearAir::co2e);
  }

  void add_nitrogen(plan::Environment& e) const {
    e.n_taken_up = of_crop(&plan::NextCrop::n_taken_up_kg_per_ha);
    e.n_given_back = of_crop(&plan::NextCrop::n_given_back_kg_per_ha);
    e.n_held = of_crop(&plan::NextCrop::n_held_kg_per_ha);
  }

  [[nodiscard]] double worth(const plan::FieldRun& run, farm::FireLosses losses) const {
    const straw::Nutrients straw{.n = farm_.decay.nitrogen_g_per_kg / 1000.0};
    const farm::NutrientShares lost = farm::lost_in_fire(losses);
    const farm::NutrientPrices& price = farm_.prices.nutrients;
    const auto gone = [&](double share) { return run.baled_kg_per_ha + share * run.burned_kg_per_ha; };
    return price.n_per_kg.value_or(0.0) * straw.n * gone(lost.n) +
           price.p_per_kg.value_or(0.0) * straw.p * gone(lost.p) +
           price.k_per_kg.value_or(0.0) * straw.k * gone(lost.k);
  }

  void add_replacement(plan::Environment& e) const {
    if (!farm_.prices.nutrients.any()) return;
    e.replacement = figure_of(every_, [&](std::size_t y) {
      const double part = worth(runs_[y], farm::FireLosses::part_of_each);
      const double only = worth(runs_[y], farm::FireLosses::nitrogen_only);
      const bool by_part = farm_.environment.fire_losses == farm::FireLosses::part_of_each;
      return Uncertain{by_part ? part : only, std::min(part, only), std::max(part, only)};
    });
  }

  [[nodiscard]] double disease_of(std::size_t y) const {
    const plan::NextCrop& c = runs_[y].next_crop;
    if (c.spring_day == plan::none) return 0.0;
    const auto& untouched = (*in_.untouched)[y];
    const auto day = std::min(static_cast<std::size_t>(c.spring_day), untouched.size() - 1);
    return field_.disease.weight * straw::carried_share({.on_top = c.spring_on_top_kg_per_ha,
                                                         .in_ground = c.spring_in_ground_kg_per_ha,
                                                         .untouched_on_top = untouched[day],
                                                         .flooded_days = c.flooded_days});
  }

  void add_late(plan::Environment& e) const {
    const auto n = static_cast<double>(runs_.size());
    for (const plan::FieldRun& run : runs_) {
      if (run.status != plan::Status::late) continue;
      const double loss = dispatch::late_loss_kg_per_ha(farm_, field_, run.ready_day);
      const int late_days = run.ready_day - farm_.season.day(field_.next.planting);
      e.late_loss += loss / n;
      e.late_loss_high += std::max(loss, late_days * late_rule_of_thumb_kg_per_ha_day) / n;
    }
  }

  const EnvironmentInput& in_;
  const farm::Farm& farm_;
  const farm::Field& field_;
  const std::vector<plan::FieldRun>& runs_;
  std::vector<YearAir> air_;
  Counted every_, rice_;
};

}  // namespace

Untouched untouched_of(const dispatch::Table& table, std::size_t field) {
  const int days = table.problem->farm.season.days;
  Untouched out;
  for (std::size_t y = 0; y < table.drivers.size(); ++y) {
    season::FieldYear sim = dispatch::first_morning(table, field, y, plan::none);
    if (table.so_far)  // that has been worked on by now
      sim = {table.problem->farm, field, table.drivers[y], method::HarvestSetting{}};
    auto& on_top = out.emplace_back(static_cast<std::size_t>(days) + 1, 0.0);
    for (; sim.day() < days; sim.end_day(0.0))
      on_top[static_cast<std::size_t>(sim.day())] = sim.pools().on_top();
    on_top.back() = sim.pools().on_top();
  }
  return out;
}

plan::Environment environment_of(const EnvironmentInput& input) { return Sums{input}.result(); }

}  // namespace aftercut::scenario

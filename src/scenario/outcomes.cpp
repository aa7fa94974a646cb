#include "aftercut/scenario/outcomes.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/readiness/readiness.hpp"
#include "aftercut/scenario/bales.hpp"
#include "aftercut/scenario/environment.hpp"
#include "aftercut/scenario/not_burned.hpp"

namespace aftercut::scenario {
namespace {

/// One method on one field in one year, and the whole farm with it.
struct Trial {
  plan::FieldRun run;
  plan::CostParts farm_cost;
  Amounts amounts;
  std::vector<double> implement_h;
};

double typical_h(const farm::Farm& farm, std::size_t field, const std::vector<double>& implement_h) {
  double hours = 0.0;
  for (std::size_t i = 0; i < implement_h.size(); ++i)
    hours += implement_h[i] * dispatch::typical_hours_share(farm, field, i);
  return hours;
}

struct Pair {
  std::size_t field = 0;
  int method = 0;
};

bool is_chosen(const OutcomeInput& in, const Pair& pair) {
  return in.decision->method[pair.field] == pair.method;
}

plan::YearRun play(const OutcomeInput& in, const Pair& pair, std::size_t year) {
  plan::Decision d = *in.decision;
  d.method[pair.field] = pair.method;
  return dispatch::run(*in.table, d, year, {.keep_next_crop = true});
}

Trial trial_of(const OutcomeInput& in, const Pair& pair, const plan::YearRun& run) {
  const farm::Farm& farm = in.table->problem->farm;
  Trial t{.run = run.fields[pair.field],
          .farm_cost = {},
          .amounts = amounts_of(farm, run, in.table->so_far),
          .implement_h = {}};
  for (const plan::FieldRun& field : run.fields) t.farm_cost = t.farm_cost + field.cost;
  t.implement_h.resize(farm.implements.size(), 0.0);
  for (const auto& w : run.work)
    if (w.field == static_cast<int>(pair.field) && w.implement != plan::none)
      t.implement_h[static_cast<std::size_t>(w.implement)] += (w.end_min - w.start_min) / 60.0;
  return t;
}

std::int64_t mean_cents(std::int64_t sum, std::size_t n) {
  return to_cents(static_cast<double>(sum) / static_cast<double>(n) / 100.0);
}

template <class Get>
plan::CostParts mean_cost(const std::vector<Trial>& trials, Get get) {
  plan::CostParts sum, mean;
  for (const Trial& t : trials) sum = sum + get(t);
  for (const plan::CostPart& part : plan::cost_parts) mean.*part.of = mean_cents(sum.*part.of, trials.size());
  return mean;
}

plan::DaysNotBurned operator+(plan::DaysNotBurned a, const plan::DaysNotBurned& b) {
  for (const plan::NotBurnedPart& part : plan::not_burned_parts) a.*part.of += b.*part.of;
  return a;
}

/// The whole farm with this method on the field.
FarmOutcome farm_outcome(const std::vector<Trial>& trials) {
  FarmOutcome o;
  o.parts = mean_cost(trials, [](const Trial& t) { return t.farm_cost; });
  for (const Trial& t : trials) {
    o.cost_by_year.push_back(t.farm_cost.out_of_pocket());
    o.amounts = plus_share(std::move(o.amounts), t.amounts, 1.0 / static_cast<double>(trials.size()));
    if (!t.run.fell_back) continue;
    ++o.fell_back;
    o.not_burned = o.not_burned + t.run.not_burned;
  }
  return o;
}

template <class Get>
double mean_of(const std::vector<Trial>& trials, Get get) {
  double sum = 0.0;
  for (const Trial& t : trials) sum += get(t.run);
  return sum / static_cast<double>(trials.size());
}

void add_straw_numbers(plan::MethodOutcome& o, const std::vector<Trial>& trials, const farm::Farm& farm) {
  const straw::Nutrients in_straw{.n = 1e-3 * farm.decay.nitrogen_g_per_kg};
  const farm::NutrientShares lost = farm::lost_in_fire(farm.environment.fire_losses);
  const double baled = mean_of(trials, [](const auto& r) { return r.baled_kg_per_ha; });
  const double burned = mean_of(trials, [](const auto& r) { return r.burned_kg_per_ha; });
  o.removed_n = in_straw.n * (baled + lost.n * burned);
  o.removed_p = in_straw.p * (baled + lost.p * burned);
  o.removed_k = in_straw.k * (baled + lost.k * burned);
}

void add_environment(plan::MethodOutcome& o, const OutcomeInput& in, const Pair& pair,
                     const std::vector<Trial>& trials, const Untouched& untouched) {
  const farm::Farm& farm = in.table->problem->farm;
  std::vector<plan::FieldRun> runs;
  for (const Trial& t : trials) runs.push_back(t.run);
  o.environment = environment_of({&farm, pair.field, &runs, &in.shown, &untouched});
  burn::BurnAir air{};
  const double area = farm.fields[pair.field].area.value();
  for (std::size_t g = 0; g < burn::gases; ++g) air[g] = exactly(area * o.environment.burned[g].mean);
  o.emissions = burn::emissions_of(air, burn::diesel_co2_kg(Litre{o.fuel_l}, farm.environment.diesel).mid,
                                   farm.environment.warming);
}

void add_shown_numbers(plan::MethodOutcome& o, const OutcomeInput& in, const Pair& pair,
                       const std::vector<Trial>& trials) {
  std::vector<plan::FieldRun> shown;
  std::vector<double> left;
  for (const std::size_t y : in.shown) {
    shown.push_back(trials[y].run);
    left.push_back(trials[y].run.straw_left_kg_per_ha);
  }
  o.straw_left_kg_per_ha = {quantile(left, 0.1), quantile(left, 0.5), quantile(left, 0.9)};
  const auto ready = readiness::of_field(in.table->problem->farm.fields[pair.field], shown);
  const farm::Farm& farm = in.table->problem->farm;
  if (farm.book.recipes[static_cast<std::size_t>(o.method)].bales)
    o.bales = count_bales(farm, farm.fields[pair.field], shown);
  o.ready = ready.ready;
  o.chance_ready = ready.chance;
}

/// In how many years the method went over to its fall-back; of a burn, what held it up.
std::optional<std::string> fall_back_note(const farm::Farm& farm, const method::Recipe& recipe,
                                          const std::vector<Trial>& trials) {
  int fell = 0;
  plan::DaysNotBurned held_up;
  for (const Trial& t : trials) {
    if (!t.run.fell_back) continue;
    ++fell;
    held_up = held_up + t.run.not_burned;
  }
  if (fell == 0 || !recipe.fall_back) return std::nullopt;
  const method::FallBack& back = *recipe.fall_back;
  return fmt::format("{} in {} of {} years: goes over to {} by {}{}",
                     recipe.burns ? "not burned" : back.trigger, fell, trials.size(), back.method.value,
                     iso(next_on(back.start_by, farm.season.first)),
                     recipe.burns ? "; " + not_burned_words(held_up, fell) : "");
}

void add_notes(plan::MethodOutcome& o, const OutcomeInput& in, const Pair& pair,
               const std::vector<Trial>& trials) {
  const farm::Farm& farm = in.table->problem->farm;
  const auto& recipe = farm.book.recipes[static_cast<std::size_t>(o.method)];
  if (o.bales) o.notes.push_back(bale_words(farm, *o.bales));
  plan::Decision with_it = *in.decision;
  with_it.method[pair.field] = pair.method;
  for (auto& note : hire_notes(*in.table, with_it, recipe)) o.notes.push_back(std::move(note));
  if (auto note = fall_back_note(farm, recipe, trials)) o.notes.push_back(std::move(*note));
  const auto over =
      std::count_if(trials.begin(), trials.end(), [](const Trial& t) { return t.run.steps_passed_over > 0; });
  if (over > 0)
    o.notes.push_back(
        fmt::format("a step is passed over as too late in {} of {} years", over, trials.size()));
  const auto dry =
      std::count_if(trials.begin(), trials.end(), [](const Trial& t) { return t.run.finished_dry > 0; });
  if (dry > 0)
    o.notes.push_back(
        fmt::format("the seedbed is finished in dry, hard ground in {} of {} years: more fuel, coarser clods",
                    dry, trials.size()));
}

plan::MethodOutcome sum_up(const OutcomeInput& in, const Pair& pair, const std::vector<Trial>& trials,
                           const Untouched& untouched) {
  const farm::Farm& farm = in.table->problem->farm;
  plan::MethodOutcome o;
  o.method = pair.method;
  o.possible = true;
  o.mean_cost = mean_cost(trials, [](const Trial& t) { return t.run.cost; });
  std::int64_t farm_sum = 0;
  for (const Trial& t : trials) farm_sum += t.farm_cost.out_of_pocket();
  o.farm_cost = mean_cents(farm_sum, trials.size());
  o.machine_h = mean_of(trials, [](const auto& r) { return static_cast<double>(r.machine_min) / 60.0; });
  o.labour_h = mean_of(trials, [](const auto& r) { return static_cast<double>(r.labour_min) / 60.0; });
  o.fuel_l = mean_of(trials, [](const auto& r) { return r.fuel_l; });
  o.water_m3 = mean_of(trials, [](const auto& r) { return r.water_m3; });
  std::vector<double> mean_h(farm.implements.size(), 0.0);
  for (std::size_t i = 0; i < mean_h.size(); ++i) {
    for (const Trial& t : trials) mean_h[i] += t.implement_h[i] / static_cast<double>(trials.size());
    if (mean_h[i] > 0.0) o.machine_hours[farm.implements[i].id.value] = mean_h[i];
  }
  o.machine_h_typical = typical_h(farm, pair.field, mean_h);
  add_straw_numbers(o, trials, farm);
  add_environment(o, in, pair, trials, untouched);
  add_shown_numbers(o, in, pair, trials);
  add_notes(o, in, pair, trials);
  return o;
}

/// The plan as it is, in every year: what every field's chosen method brings.
std::vector<plan::YearRun> as_chosen(const OutcomeInput& in) {
  std::vector<plan::YearRun> runs(in.table->drivers.size());
  for_each_index(runs.size(), in.threads, [&](std::size_t y) {
    runs[y] = dispatch::run(*in.table, *in.decision, y, {.keep_next_crop = true});
  });
  return runs;
}

/// [pair][year]
std::vector<std::vector<Trial>> try_all(const OutcomeInput& in, const std::vector<Pair>& pairs) {
  constexpr std::size_t at_once = 24;  // pairs between two words of progress
  const std::size_t years = in.table->drivers.size();
  const std::vector<plan::YearRun> chosen = as_chosen(in);
  std::vector<std::vector<Trial>> trials(pairs.size(), std::vector<Trial>(years));
  for (std::size_t from = 0; from < pairs.size(); from += at_once) {
    const std::size_t n = std::min(at_once, pairs.size() - from);
    for_each_index(n * years, in.threads, [&](std::size_t i) {
      const Pair& pair = pairs[from + i / years];
      const std::size_t y = i % years;
      trials[from + i / years][y] = trial_of(in, pair, is_chosen(in, pair) ? chosen[y] : play(in, pair, y));
    });
    if (in.progress) in.progress(static_cast<double>(from + n) / static_cast<double>(pairs.size()));
  }
  return trials;
}

}  // namespace

Outcomes outcomes(const OutcomeInput& in) {
  std::vector<Pair> pairs;
  Outcomes all;
  for (std::size_t f = 0; f < in.table->why_not.size(); ++f) {
    auto& row = all.methods.emplace_back();
    all.farm.emplace_back(in.table->why_not[f].size());
    for (std::size_t r = 0; r < in.table->why_not[f].size(); ++r) {
      row.push_back({.method = static_cast<int>(r), .possible = false, .why_not = in.table->why_not[f][r]});
      if (row.back().why_not.empty()) pairs.push_back({f, static_cast<int>(r)});
    }
  }
  const auto trials = try_all(in, pairs);
  std::vector<Untouched> untouched(all.methods.size());
  for_each_index(untouched.size(), in.threads,
                 [&](std::size_t f) { untouched[f] = untouched_of(*in.table, f); });
  for (std::size_t p = 0; p < pairs.size(); ++p) {
    const auto r = static_cast<std::size_t>(pairs[p].method);
    all.methods[pairs[p].field][r] = sum_up(in, pairs[p], trials[p], untouched[pairs[p].field]);
    all.farm[pairs[p].field][r] = farm_outcome(trials[p]);
  }
  return all;
}

}  // namespace aftercut::scenario

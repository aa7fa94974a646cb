// What one more is worth beside plans searched afresh: the demo's fields and machines, each time with one
// thing made scarce, a tenth more of it, the worth that a plan would tell (methods and orders kept), and what
// planning again saves. bench_worth [seeds] [changes judged by a search]

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

#include "aftercut/planner/search.hpp"
#include "aftercut/scenario/one_more.hpp"
#include "bench_farms.hpp"

using namespace aftercut;

namespace {

struct Scarce {
  const char* what;
  const char* kind;
  const char* id;
  void (*make)(farm::Farm&);
};

/// Every second field of the demo.
farm::Problem half_of_demo() {
  farm::Problem p = bench::demo();
  farm::Farm& f = p.farm;
  const farm::Farm& from = bench::demo().farm;
  f.fields.clear();
  f.fits.clear();
  f.travel.km.clear();
  f.travel.access.clear();
  for (std::size_t k = 0; k < from.fields.size(); k += 2) {
    f.fields.push_back(from.fields[k]);
    f.fields.back().links.clear();
    f.fits.push_back(from.fits[k]);
    if (!from.travel.access.empty()) f.travel.access.push_back(from.travel.access[k]);
    auto& row = f.travel.km.emplace_back();
    for (std::size_t j = 0; j < from.fields.size(); j += 2) row.push_back(from.travel.km[k][j]);
  }
  return p;
}

void only_person(farm::Farm& f, const char* id) {
  std::erase_if(f.operators, [&](const farm::Operator& o) { return o.id.value != id; });
}

void only_tractor(farm::Farm& f, const char* id) {
  std::erase_if(f.tractors, [&](const machinery::Tractor& t) { return t.id.value != id; });
}

machinery::Implement& implement(farm::Farm& f, const char* id) {
  return *std::ranges::find_if(f.implements, [&](const auto& i) { return i.id.value == id; });
}

void lock_all(farm::Farm& f, const char* method) {
  for (farm::Field& field : f.fields) field.locked = MethodId{method};
}

void away_all_season(farm::Farm& f, const char* id) {
  implement(f, id).away = {{f.season.first, f.season.date(f.season.days - 1), "not in this case"}};
}

constexpr Scarce cases[]{
    {"Ana works alone", "operator", "Ana", [](farm::Farm& f) { only_person(f, "Ana"); }},
    {"Bo works alone", "operator", "Bo", [](farm::Farm& f) { only_person(f, "Bo"); }},
    {"Cleo works alone", "operator", "Cleo", [](farm::Farm& f) { only_person(f, "Cleo"); }},
    {"T1 alone pulls", "tractor", "T1", [](farm::Farm& f) { only_tractor(f, "T1"); }},
    {"T2 alone pulls", "tractor", "T2", [](farm::Farm& f) { only_tractor(f, "T2"); }},
    {"one slow disk", "implement", "disk 2",
     [](farm::Farm& f) {
       away_all_season(f, "disk 1");
       implement(f, "disk 2").entered_ha_per_day = 8.0;
     }},
    {"narrow land plane", "implement", "plane",
     [](farm::Farm& f) { implement(f, "plane").width = Metre{1.3}; }},
    {"narrow chisel", "implement", "chisel",
     [](farm::Farm& f) { implement(f, "chisel").entered_ha_per_day = 5.0; }},
    {"all bale, ten days", "hired_days", "baler",
     [](farm::Farm& f) {
       lock_all(f, "bale");
       auto& windows = implement(f, "baler").hire->windows;
       windows = {{windows.back().from, windows.back().from + 9}};
     }},
    {"all flood, little flow", "canal_flow", "",
     [](farm::Farm& f) {
       lock_all(f, "roll_flood");
       f.supply->most_flow = CubicMetrePerDay{0.02 * 86400.0};
     }},
};

struct Searched {
  double mean = 0.0, error = 0.0;
  plan::Decision best;
};

Searched searched(const dispatch::Table& table, const std::vector<std::size_t>& years, int seeds,
                  int changes) {
  std::vector<double> costs;
  Searched out;
  for (int s = 1; s <= seeds; ++s) {
    const auto found = planner::search({.table = &table,
                                        .years = years,
                                        .seed = static_cast<std::uint64_t>(s),
                                        .threads = 2,
                                        .evaluations = changes});
    const double cost = static_cast<double>(found.cost) / 100.0 / static_cast<double>(years.size());
    if (costs.empty() || cost < *std::ranges::min_element(costs)) out.best = found.decision;
    costs.push_back(cost);
  }
  const double n = static_cast<double>(costs.size());
  out.mean = std::accumulate(costs.begin(), costs.end(), 0.0) / n;
  double squares = 0.0;
  for (const double c : costs) squares += (c - out.mean) * (c - out.mean);
  out.error = n > 1.0 ? std::sqrt(squares / (n - 1.0) / n) : 0.0;
  return out;
}

const farm::Problem& with_more_of(const std::vector<scenario::WithMore>& all, const Scarce& c) {
  return std::ranges::find_if(all, [&](const auto& w) { return w.of.kind == c.kind && w.of.id == c.id; })
      ->problem;
}

}  // namespace

int main(int count, char** arguments) {
  const int seeds = count > 1 ? std::atoi(arguments[1]) : 3,
            changes = count > 2 ? std::atoi(arguments[2]) : 3000;
  fmt::print("Indicative. USD a year, half of the demo's fields, {} searches of {} changes on all years.\n\n",
             seeds, changes);
  fmt::print("{:24} {:>9} {:>16} {:>8} {:>7} {:>18} {:>6} {:>6}\n", "scarce", "cost", "a tenth more",
             "by unit", "worth", "planned again", "sign", "ratio");
  int right = 0, near = 0;
  for (const Scarce& c : cases) {
    farm::Problem p = half_of_demo();
    c.make(p.farm);
    const dispatch::Table table = dispatch::make_table(p, 1);
    std::vector<std::size_t> years(table.drivers.size());
    std::iota(years.begin(), years.end(), std::size_t{0});
    const Searched base = searched(table, years, seeds, changes);
    const auto one = scenario::one_more({.table = &table,
                                         .decision = &base.best,
                                         .plans = 12,
                                         .threads = 2,
                                         .progress = {},
                                         .only_kind = c.kind,
                                         .only_id = c.id})
                         .things.front();
    const auto all = scenario::with_a_tenth_more(p);
    const dispatch::Table more = dispatch::make_table(with_more_of(all, c), 1);
    const Searched again = searched(more, years, seeds, changes);
    const double saves = base.mean - again.mean;
    const double ratio = saves != 0.0 ? one.worth / saves : 0.0;
    const bool sign = (one.worth > 0.0) == (saves > 0.0);
    right += sign ? 1 : 0;
    near += sign && ratio >= 0.5 && ratio <= 2.0 ? 1 : 0;
    fmt::print("{:24} {:9.0f} {:10.3f} {:>5} {:8.2f} {:7.0f} {:8.0f} ± {:<7.0f} {:>6} {:6.2f}\n", c.what,
               base.mean, one.more, one.unit, one.worth / one.more, one.worth, saves,
               std::hypot(base.error, again.error), sign ? "right" : "wrong", ratio);
    std::fflush(stdout);
  }
  fmt::print("\nRight sign in {} of {}, within a factor of 2 in {}.\n", right, std::size(cases), near);
  return 0;
}

#include "again.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/plan/plan.hpp"
#include "replay.hpp"

namespace aftercut::audit {
namespace {

constexpr double printed_stood_chance = 5.001e-5;

bool is_order_of(const farm::Farm& farm, const std::vector<int>& order) {
  std::vector<int> wanted;
  for (int f = 0; f < static_cast<int>(farm.fields.size()); ++f) wanted.push_back(f);
  return std::ranges::is_permutation(order, wanted);
}

bool decision_known(const farm::Farm& farm, const plan::Decision& d) {
  const int methods = static_cast<int>(farm.book.recipes.size());
  return d.method.size() == farm.fields.size() && is_order_of(farm, d.autumn_order) &&
         is_order_of(farm, d.spring_order) &&
         std::ranges::all_of(d.method, [&](int m) { return m >= plan::none && m < methods; });
}

/// A method that is another now has a move that was made; what cannot be done any more is told as it is
/// played.
Findings check_moves(const farm::Farm& farm, const plan::Plan& p) {
  Findings f;
  const plan::Again& a = *p.again;
  for (std::size_t k = 0; k < farm.fields.size(); ++k) {
    const int field = static_cast<int>(k), stood = a.stood.method[k], now = p.decision.method[k];
    const bool told = std::ranges::any_of(a.moves, [&](const plan::Move& m) {
      return m.field == field && m.made && m.from == stood && m.to == now;
    });
    f.expect(told == (stood != now), "wrong move against the plan that stood",
             Place{&farm, -1, -1, field, ""}, [&] {
               return Texts{told ? "a move" : "no move", told ? "the same method" : "another method"};
             });
  }
  for (const plan::Move& m : a.barred)
    f.expect(m.field >= 0 && a.stood.method[static_cast<std::size_t>(m.field)] == m.to,
             "wrong move against the plan that stood", Place{&farm, -1, -1, m.field, "barred"}, [] {
               return Texts{"another method", "what is played of the plan that stood"};
             });
  const auto order = [&](const plan::Move& m, bool same, const char* name) {
    f.expect(m.made != same, "wrong move against the plan that stood", Place{&farm, -1, -1, -1, name}, [&] {
      return Texts{m.made ? "moved" : "not moved", same ? "the same order" : "another order"};
    });
  };
  order(a.autumn_order, a.stood.autumn_order == p.decision.autumn_order, "autumn order");
  order(a.spring_order, a.stood.spring_order == p.decision.spring_order, "spring order");
  return f;
}

/// Cost to come and chances of the plan that stood, from its years.
Findings check_stood(const farm::Farm& farm, const plan::PlannedYears& planned) {
  Findings f;
  const plan::Plan& p = planned.plan;
  std::int64_t sum = 0;
  for (const plan::YearRun& run : planned.stood_runs)
    for (const plan::FieldRun& field : run.fields) sum += field.cost.out_of_pocket();
  const double mean = static_cast<double>(sum) / static_cast<double>(planned.stood_runs.size());
  f.expect_near(static_cast<double>(p.again->stood_cents), mean, 1.0, "wrong cost of the plan that stood",
                Place{nullptr, -1, -1, -1, "mean to come, cents"});
  for (std::size_t k = 0; k < farm.fields.size(); ++k) {
    const bool due = farm.fields[k].next.kind != farm::NextUseKind::fallow;
    if (!due) continue;
    double ready = 0.0, years = 0.0;
    for (const plan::YearRun& run : planned.stood_runs) {
      if (std::ranges::count(p.shown_years, run.year) == 0) continue;
      years += 1.0;
      ready += run.fields[k].status == plan::Status::ready ? 1.0 : 0.0;
    }
    if (p.again->stood.method[k] == plan::none) ready = 0.0;
    if (years > 0.0)
      f.expect_near(p.again->stood_chance[k], ready / years, printed_stood_chance,
                    "wrong chance under the plan that stood", Place{&farm, -1, -1, static_cast<int>(k), ""});
  }
  return f;
}

}  // namespace

Findings check_again(const Facts& facts, const plan::PlannedYears& planned) {
  Findings f;
  if (!planned.plan.again) return f;
  const farm::Farm& farm = facts.farm();
  const plan::Again& told = *planned.plan.again;
  const Place place{&farm, -1, -1, -1, "the plan that stood"};
  const bool known = decision_known(farm, told.stood) && told.stood_chance.size() == farm.fields.size();
  f.expect(known, "plan that stood not readable", place, [] {
    return Texts{"a method or an order that is none", "each field once"};
  });
  std::vector<int> stood, now;
  for (const plan::YearRun& run : planned.stood_runs) stood.push_back(run.year);
  for (const plan::YearRun& run : planned.runs) now.push_back(run.year);
  const bool sized = std::ranges::all_of(
      planned.stood_runs, [&](const plan::YearRun& run) { return run.fields.size() == farm.fields.size(); });
  f.expect(stood == now && sized && !stood.empty(), "missing year", place, [&] {
    return Texts{fmt::format("{} runs", stood.size()), "a run of every year of the plan, in order"};
  });
  if (!known || stood != now || !sized || stood.empty()) return f;
  const auto& years = facts.problem->years.years;
  for (const plan::YearRun& run : planned.stood_runs) {
    const auto at = std::ranges::find(years, run.year, &weather::Year::year);
    if (at == years.end()) return f;
    f += lived_again(facts, told.stood, run, static_cast<std::size_t>(at - years.begin()),
                     "the plan that stood")
             .findings;
  }
  f += check_moves(farm, planned.plan);
  f += check_stood(farm, planned);
  return f += check_days_moved(farm, planned);
}

}  // namespace aftercut::audit

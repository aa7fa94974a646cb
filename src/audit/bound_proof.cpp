#include "bound_proof.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "money.hpp"
#include "outfits.hpp"

namespace aftercut::audit {
namespace {

constexpr double sum_tolerance = 1e-9;      // of the sum: floating additions in another order
constexpr double again_tolerance = 1e-6;    // of the figure: another machine's or compiler's last digits
constexpr double least_size_cents = 100.0;  // figures near 0 are held to that share of so much
constexpr double off_cents = 1.0;           // that the bound lies below its sum before it is rounded down

bool near(double a, double b, double share) {
  return std::abs(a - b) <= share * std::max({std::abs(a), std::abs(b), least_size_cents});
}

Place in_bound(const farm::Farm& farm, int year, int field, const std::string& what) {
  return {&farm, year, -1, field, what.empty() ? bound_file : fmt::format("{} {}", bound_file, what)};
}

Texts cents_texts(double found, double expected) {
  return {fmt::format("{:.4f} cents", found), fmt::format("{:.4f} cents", expected)};
}

/// Minutes for which the machine or person is there: a tractor or implement while the farm's longest shift
/// lasts.
double minutes_there(const Facts& facts, const plan::MinutePrice& p) {
  if (p.resource == plan::Resource::person) return minutes_at_work(facts, p.index, p.day);
  const farm::Farm& farm = facts.farm();
  const Date date = farm.season.date(p.day);
  const auto i = static_cast<std::size_t>(p.index);
  bool there = true;
  if (p.resource == plan::Resource::tractor) {
    there = !within(farm.tractors[i].away, date);
  } else {
    const auto& hire = farm.implements[i].hire;
    there = !within(farm.implements[i].away, date) &&
            (!hire || hire->windows.empty() || within(hire->windows, date));
  }
  return there ? std::min(facts.longest_operator_min, facts.daylight_min[static_cast<std::size_t>(p.day)])
               : 0;
}

Findings check_paid_back(const Facts& facts, const plan::BoundProof& proof) {
  Findings f;
  for (const plan::BoundYear& year : proof.years) {
    double cents = 0.0;
    for (const plan::MinutePrice& p : year.prices) cents += p.cents * minutes_there(facts, p);
    f.expect(near(year.paid_back, cents, sum_tolerance), "wrong sum paid back",
             in_bound(facts.farm(), year.year, -1, ""), [&] { return cents_texts(year.paid_back, cents); });
  }
  return f;
}

std::string method_name(const farm::Farm& farm, int method) {
  const bool known = method >= 0 && method < static_cast<int>(farm.book.recipes.size());
  return known ? farm.book.recipes[static_cast<std::size_t>(method)].id.value : "none";
}

/// The methods told are those that are possible on the field, each once, in the book's order.
Findings check_methods(const Facts& facts, int field, const plan::FieldFloor& floor) {
  const farm::Farm& farm = facts.farm();
  std::vector<int> told, possible;
  for (const plan::MethodFloor& m : floor.methods) told.push_back(m.method);
  for (int r = 0; r < static_cast<int>(farm.book.recipes.size()); ++r)
    if (barred(facts, field, r).empty()) possible.push_back(r);
  const auto words = [&](const std::vector<int>& methods) {
    std::string text;
    for (const int m : methods) text += (text.empty() ? "" : ", ") + method_name(farm, m);
    return text.empty() ? "none" : text;
  };
  Findings f;
  f.expect(told == possible, "methods of the bound", in_bound(farm, -1, field, ""), [&] {
    return Texts{words(told), words(possible)};
  });
  return f;
}

/// The years of the bound's method and of the plan's add up to what is said of all.
Findings check_sums_of_years(const farm::Farm& farm, int field, const plan::FieldFloor& floor, int planned,
                             std::size_t years) {
  Findings f;
  for (const plan::MethodFloor& m : floor.methods) {
    const bool told = m.method == floor.method || m.method == planned;
    const Place place = in_bound(farm, -1, field, method_name(farm, m.method));
    f.expect(m.by_year.size() == (told ? years : 0), "years of a method in the bound", place, [&] {
      return Texts{fmt::format("{} years", m.by_year.size()), fmt::format("{} years", told ? years : 0)};
    });
    if (m.by_year.empty()) continue;
    double sum = 0.0;
    for (const double cents : m.by_year) sum += cents;
    f.expect(near(m.cents, sum, sum_tolerance), "wrong sum of a method in the bound", place,
             [&] { return cents_texts(m.cents, sum); });
  }
  return f;
}

struct OfFields {
  double cents = 0.0;
  Findings findings;
};

/// The least method of every field; one without a possible method stays unplanted.
OfFields least_of_fields(const Facts& facts, const plan::PlannedYears& planned) {
  OfFields out;
  const farm::Farm& farm = facts.farm();
  const plan::BoundProof& proof = *planned.bound;
  for (std::size_t k = 0; k < farm.fields.size(); ++k) {
    const plan::FieldFloor& floor = proof.fields[k];
    const int field = static_cast<int>(k);
    out.findings += check_methods(facts, field, floor);
    out.findings +=
        check_sums_of_years(farm, field, floor, planned.plan.decision.method[k], proof.years.size());
    const auto least = std::min_element(
        floor.methods.begin(), floor.methods.end(),
        [](const plan::MethodFloor& a, const plan::MethodFloor& b) { return a.cents < b.cents; });
    const int best = least == floor.methods.end() ? plan::none : least->method;
    out.findings.expect(floor.method == best, "method of the bound not the least",
                        in_bound(farm, -1, field, ""), [&] {
                          return Texts{method_name(farm, floor.method), method_name(farm, best)};
                        });
    const plan::CostParts unplanted =
        cost_of_outcome(farm, farm.fields[k], plan::Status::no_method, plan::none);
    out.cents += best != plan::none ? least->cents
                                    : static_cast<double>(unplanted.out_of_pocket()) *
                                          static_cast<double>(proof.years.size());
  }
  return out;
}

/// The bound is that sum less what is paid back, a cent off and down to whole cents; and plan.json's is a
/// year's share of it.
Findings check_sum(const farm::Farm& farm, const plan::PlannedYears& planned, double cents_of_fields) {
  Findings f;
  const plan::BoundProof& proof = *planned.bound;
  double sum = cents_of_fields, size = std::abs(cents_of_fields);
  for (const plan::BoundYear& year : proof.years) {
    sum -= year.paid_back;
    size += std::abs(year.paid_back);
  }
  const auto whole = [&](double more) { return std::floor(sum - off_cents + more); };
  const auto told = static_cast<double>(proof.cents);
  const double last_digits = 1e-12 * size;
  f.expect(told == whole(-last_digits) || told == whole(last_digits), "wrong bound",
           in_bound(farm, -1, -1, "sum over the years"), [&] { return cents_texts(told, whole(0.0)); });
  const auto same = [&](std::int64_t found, std::int64_t expected, const Place& place) {
    f.expect(found == expected, "wrong bound", place, [&] {
      return Texts{fmt::format("{} cents", found), fmt::format("{} cents", expected)};
    });
  };
  const auto n = static_cast<double>(std::max<std::size_t>(proof.years.size(), 1));
  same(proof.cents_a_year, static_cast<std::int64_t>(std::floor(static_cast<double>(proof.cents) / n)),
       in_bound(farm, -1, -1, "mean a year"));
  same(planned.plan.bound_cents.value_or(0), proof.cents_a_year, Place{nullptr, -1, -1, -1, "objective"});
  return f;
}

/// No plan undercuts the bound: not this one either, in the sum over its years.
Findings check_below_plan(const farm::Farm& farm, const plan::BoundProof& proof, const Replays& replays) {
  Findings f;
  std::int64_t cost = 0;
  for (const auto& year : replays.stated)
    for (const plan::CostParts& parts : year) cost += parts.out_of_pocket();
  f.expect(proof.cents <= cost, "bound above the plan", in_bound(farm, -1, -1, "sum over the years"), [&] {
    return Texts{fmt::format("{} cents", proof.cents), fmt::format("at most {} cents", cost)};
  });
  return f;
}

}  // namespace

Findings check_bound(const Facts& facts, const plan::PlannedYears& planned, const Replays& replays) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const bool has_bound = planned.plan.bound_cents.has_value(), has_proof = planned.bound.has_value();
  const Place file{nullptr, -1, -1, -1, bound_file};
  f.expect(!has_bound || has_proof, "bound without its multipliers", file, [] {
    return Texts{"none that can be read", "the multipliers behind objective.bound of plan.json"};
  });
  f.expect(has_bound || !has_proof, "multipliers without a bound", file, [] {
    return Texts{"multipliers", "none: objective.bound of plan.json is null"};
  });
  if (!has_proof) return f;
  const plan::BoundProof& proof = *planned.bound;
  const Findings multipliers = check_multipliers(farm, planned.plan, proof);
  const bool sound = multipliers.audit.ok();
  f += multipliers;
  f.expect(proof.fields.size() == farm.fields.size(), "methods of the bound", file, [&] {
    return Texts{fmt::format("{} fields", proof.fields.size()), fmt::format("{}", farm.fields.size())};
  });
  if (proof.fields.size() != farm.fields.size()) return f;
  OfFields least = least_of_fields(facts, planned);
  f += std::move(least.findings);
  f += check_sum(farm, planned, least.cents);
  if (sound) {
    f += check_paid_back(facts, proof);
    f += check_against_work(facts, planned, replays);
    f += check_below_plan(farm, proof, replays);
  }
  return f;
}

bool can_be_put_in(const farm::Problem& problem, const plan::Plan& plan, const plan::BoundProof& proof) {
  return check_multipliers(problem.farm, plan, proof).audit.ok();
}

namespace {

/// One field: the same methods, and for each the same sum and years.
Findings compare_field(const farm::Farm& farm, int field, const plan::FieldFloor& written,
                       const plan::FieldFloor& again, const std::vector<plan::BoundYear>& years) {
  Findings f;
  constexpr const char* rule = "bound not what its multipliers give";
  for (const plan::MethodFloor& m : written.methods) {
    const auto same = std::find_if(again.methods.begin(), again.methods.end(),
                                   [&](const plan::MethodFloor& a) { return a.method == m.method; });
    const std::string name = method_name(farm, m.method);
    f.expect(same != again.methods.end(), rule, in_bound(farm, -1, field, name), [] {
      return Texts{"a cost", "none: the method is barred"};
    });
    if (same == again.methods.end()) continue;
    f.expect(near(m.cents, same->cents, again_tolerance), rule, in_bound(farm, -1, field, name),
             [&] { return cents_texts(m.cents, same->cents); });
    for (std::size_t y = 0; y < std::min({m.by_year.size(), same->by_year.size(), years.size()}); ++y)
      f.expect(near(m.by_year[y], same->by_year[y], again_tolerance), rule,
               in_bound(farm, years[y].year, field, name),
               [&] { return cents_texts(m.by_year[y], same->by_year[y]); });
  }
  return f;
}

}  // namespace

Audit compare_bounds(const farm::Farm& farm, const plan::BoundProof& written, const plan::BoundProof& again) {
  Findings f;
  const auto sums = [&](std::int64_t found, std::int64_t expected, const char* what) {
    const auto a = static_cast<double>(found), b = static_cast<double>(expected);
    f.expect(near(a, b, again_tolerance), "bound not what its multipliers give", in_bound(farm, -1, -1, what),
             [&] { return cents_texts(a, b); });
  };
  sums(written.cents, again.cents, "sum over the years");
  sums(written.without_prices, again.without_prices, "without multipliers");
  for (std::size_t k = 0; k < std::min(written.fields.size(), again.fields.size()); ++k)
    f += compare_field(farm, static_cast<int>(k), written.fields[k], again.fields[k], written.years);
  return f.audit;
}

Audit both(Audit a, const Audit& b) {
  Findings f{std::move(a)};
  f += Findings{b};
  return f.audit;
}

}  // namespace aftercut::audit

#include "hired.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/random.hpp"

namespace aftercut::audit {
namespace {

const machinery::Hire* terms(const farm::Farm& farm, int implement) {
  if (implement == plan::none) return nullptr;
  const auto& hire = farm.implements.at(static_cast<std::size_t>(implement)).hire;
  return hire ? &*hire : nullptr;
}

const method::Operation& op_of(const farm::Farm& farm, const method::Step& step) {
  return farm.book.operations.at(static_cast<std::size_t>(step.operation));
}

/// With some tractor of the farm or its own, the implement does the step on the field.
bool fits(const farm::Farm& farm, int field, const method::Step& step, int implement) {
  for (int tractor = plan::none; tractor < static_cast<int>(farm.tractors.size()); ++tractor)
    if (outfit_fault(farm, field, op_of(farm, step), tractor, implement).empty()) return true;
  return false;
}

double asked_for_ha(const farm::Farm& farm, const plan::Decision& decision, int implement) {
  double ha = 0.0;
  for (int f = 0; f < static_cast<int>(farm.fields.size()); ++f) {
    const int m = decision.method.at(static_cast<std::size_t>(f));
    if (m < 0 || m >= static_cast<int>(farm.book.recipes.size())) continue;
    bool wanted = false;
    for (const auto& step : farm.book.recipes[static_cast<std::size_t>(m)].steps)
      wanted = wanted || fits(farm, f, step, implement);
    if (wanted) ha += farm.fields[static_cast<std::size_t>(f)].area.value();
  }
  return ha;
}

std::optional<int> arrival(const Facts& facts, const plan::Decision& decision, int implement, int year) {
  const farm::Farm& farm = facts.farm();
  const auto& i = farm.implements[static_cast<std::size_t>(implement)];
  if (!i.hire) return 0;
  const machinery::Hire& hire = *i.hire;
  const bool choosy = hire.below_least == machinery::BelowLeast::stays_away && hire.least_area.value() > 0.0;
  const bool here_already =
      facts.so_far && facts.so_far->implements.at(static_cast<std::size_t>(implement)).here;
  if (choosy && !here_already && hire.least_area.value() > asked_for_ha(farm, decision, implement) + 1e-9)
    return std::nullopt;
  if (hire.comes.empty() || here_already) return 0;
  Draws luck{facts.seed, stream_of("hire-comes:" + i.id.value), static_cast<std::uint64_t>(year)};
  const auto is_past = [&](const machinery::ComesBy& c) {
    return facts.so_far.has_value() && c.day < facts.problem->as_of;
  };
  double past = 0.0;
  for (const auto& c : hire.comes) past = is_past(c) ? std::max(past, c.chance) : past;
  const double fresh = luck.uniform(), u = past > 0.0 ? past + (1.0 - past) * fresh : fresh;
  const auto when = std::find_if(hire.comes.begin(), hire.comes.end(),
                                 [&](const machinery::ComesBy& c) { return !is_past(c) && c.chance > u; });
  if (when == hire.comes.end()) return std::nullopt;
  return farm.season.day(when->day);
}

/// Place in the outfit's order; fields that it does not list share the last one.
std::ptrdiff_t place_of_field(const machinery::Hire& hire, const FieldId& id) {
  return std::find(hire.order.begin(), hire.order.end(), id) - hire.order.begin();
}

/// A step of this season that the outfit could do is not over on the field.
bool still_due(const farm::Farm& farm, int field, const FieldReplay& f, int implement,
               method::Season season) {
  if (f.standing.recipe == plan::none) return false;
  const auto& steps = farm.book.recipes[static_cast<std::size_t>(f.standing.recipe)].steps;
  for (int k = f.standing.step; k < static_cast<int>(steps.size()); ++k) {
    const method::Step& step = steps[static_cast<std::size_t>(k)];
    const bool over_tonight = k == f.standing.step && f.pass_ends && f.standing.pass == f.standing.passes - 1;
    if (!over_tonight && step.season == season && fits(farm, field, step, implement)) return true;
  }
  return false;
}

}  // namespace

std::vector<std::optional<int>> arrivals(const Facts& facts, const plan::Decision& decision, int year) {
  const auto& implements = facts.farm().implements;
  std::vector<std::optional<int>> days;
  for (int i = 0; i < static_cast<int>(implements.size()); ++i)
    days.push_back(arrival(facts, decision, i, year));
  for (std::size_t i = 0; i < implements.size(); ++i)
    for (std::size_t main = 0; main < implements.size(); ++main)
      if (implements[i].hire && implements[i].hire->with == implements[main].id) days[i] = days[main];
  return days;
}

Findings check_hired(const Facts& facts, const Place& place, const plan::Work& w,
                     const std::vector<std::optional<int>>& arrived, const std::vector<FieldReplay>& fields) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const machinery::Hire* hire = terms(farm, w.implement);
  if (hire == nullptr) return f;
  const auto day = arrived[static_cast<std::size_t>(w.implement)];
  f.expect(day && w.day >= *day, "outfit not there yet", place, [&] {
    return Texts{iso(farm.season.date(w.day)),
                 day ? "from " + iso(farm.season.date(*day)) : "it does not come that year"};
  });
  const method::Step* step = step_of(farm, fields[static_cast<std::size_t>(w.field)].standing);
  if (hire->order.empty() || step == nullptr) return f;
  const auto mine = place_of_field(*hire, farm.fields[static_cast<std::size_t>(w.field)].id);
  for (int g = 0; g < static_cast<int>(fields.size()); ++g) {
    const auto& other = farm.fields[static_cast<std::size_t>(g)];
    if (place_of_field(*hire, other.id) >= mine) continue;
    f.expect(!still_due(farm, g, fields[static_cast<std::size_t>(g)], w.implement, step->season),
             "outfit's order not kept", place, [&] {
               return Texts{"works here", "field " + other.id.value + " first"};
             });
  }
  return f;
}

std::vector<std::int64_t> charged_for_least_area(const Facts& facts, const std::vector<FieldReplay>& fields) {
  const farm::Farm& farm = facts.farm();
  std::vector<std::int64_t> cents(fields.size(), 0);
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i) {
    const machinery::Hire* hire = terms(farm, i);
    if (hire == nullptr || hire->below_least != machinery::BelowLeast::charges_least) continue;
    double done_ha = facts.so_far ? facts.so_far->implements.at(static_cast<std::size_t>(i)).area_ha : 0.0;
    for (const FieldReplay& f : fields)
      if (const auto paid = f.hired.find(i); paid != f.hired.end()) done_ha += paid->second.ha;
    if (done_ha <= 0.0 || done_ha >= hire->least_area.value()) continue;
    const double more = hire->least_area.value() / done_ha - 1.0;
    for (std::size_t f = 0; f < fields.size(); ++f)
      if (const auto paid = fields[f].hired.find(i); paid != fields[f].hired.end())
        cents[f] += to_cents(more * static_cast<double>(paid->second.cents) / 100.0);
  }
  return cents;
}

std::optional<int> bales_gone(const farm::Farm& farm, const Standing& s) {
  const method::Operation* op = operation_of(farm, s);
  const machinery::Hire* hire = terms(farm, s.baled_by);
  if (op == nullptr || op->implement != "bale_wagon" || hire == nullptr || !hire->bales_off_by)
    return std::nullopt;
  const int promised = farm.season.day(*hire->bales_off_by);
  return promised > s.before_ended ? promised : s.before_ended + 1;
}

std::string contract_fault(const farm::Farm& farm, const method::Operation& op, int implement) {
  const auto& i = farm.implements.at(static_cast<std::size_t>(implement));
  if (i.kind != "rake") return "";
  const bool windrows = op.effect.lay_after && *op.effect.lay_after == straw::Lay::windrow;
  if (i.hire && i.hire->with) return windrows ? "" : "a baler's rake where its contract ends";
  if (!windrows) return "";
  int balers = 0, raking = 0;
  for (const auto& other : farm.implements) {
    balers += other.kind == "baler" ? 1 : 0;
    raking += other.kind == "baler" && other.hire && other.hire->rakes ? 1 : 0;
  }
  return balers > 0 && raking == balers ? "a rake of the farm where the baler's outfit rakes" : "";
}

}  // namespace aftercut::audit

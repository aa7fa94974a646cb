#include "canal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "links.hpp"

namespace aftercut::audit {
namespace {

constexpr double rounding_m3 = 1e-5;  // plan-years.jsonl rounds to 6 decimals; sums of a day add up
constexpr double counts_m3 = 1e-6;    // less is no water

/// Dates and conditions let the step of the field run today.
bool may_run(const Facts& facts, const FieldReplay& f, int field, int day) {
  const Place place{&facts.farm(), -1, day, field, ""};
  return check_dates(facts, place, f.standing).audit.count == 0 &&
         check_conditions(facts.farm(), place, *operation_of(facts.farm(), f.standing), f.mask).audit.count ==
             0;
}

std::optional<Ask> ask_of(const Facts& facts, const std::vector<FieldReplay>& fields, int field, int day) {
  const farm::Farm& farm = facts.farm();
  const FieldReplay& f = fields[static_cast<std::size_t>(field)];
  if (f.standing.recipe == plan::none || !fed(farm, fields, field)) return std::nullopt;
  const auto& water = farm.book.recipes[static_cast<std::size_t>(f.standing.recipe)].water;
  if (!water) return std::nullopt;
  const bool fill =
      operation_of(farm, f.standing)->water == method::Water::fill && may_run(facts, f, field, day);
  const bool top_up = f.filled && water->keep_up && f.mask.ponded_mm < water->target_mm / 2.0;
  if (!fill && !top_up) return std::nullopt;
  const double area = farm.fields[static_cast<std::size_t>(field)].area.value();
  return Ask{field, fill, f.life.fill_need_mm(water->target_mm) * area * m3_per_mm_ha};
}

}  // namespace

double flow_of(const farm::Farm& farm, int day) {
  if (!farm.supply) return 0.0;
  const Date date = farm.season.date(day);
  const MonthDay today{month_of(date), day_of_month(date)};
  const MonthDay on = farm.supply->on, off = farm.supply->off;
  const bool open = off < on ? !(off < today && today < on) : !(today < on) && !(off < today);
  return open ? farm.supply->most_flow.value() : 0.0;
}

std::vector<Ask> asks(const Facts& facts, const plan::Decision& decision,
                      const std::vector<FieldReplay>& fields, int day) {
  std::vector<Ask> list;
  const auto from = [&](const std::vector<int>& order, bool spring) {
    for (const int field : order) {
      if (field < 0 || field >= static_cast<int>(fields.size())) continue;
      const FieldReplay& f = fields[static_cast<std::size_t>(field)];
      const method::Step* step = f.living ? step_of(facts.farm(), f.standing) : nullptr;
      if (step == nullptr || (step->season == method::Season::spring) != spring) continue;
      if (const auto ask = ask_of(facts, fields, field, day)) list.push_back(*ask);
    }
  };
  from(decision.autumn_order, false);
  from(decision.spring_order, true);
  return list;
}

Watered let_water(const Facts& facts, const plan::Decision& decision, std::vector<FieldReplay> fields,
                  const std::vector<plan::WaterIn>& rows, int year, int day) {
  Watered out{std::move(fields), {}};
  const double flow = flow_of(facts.farm(), day);
  std::map<int, double> stated;
  double sum = 0.0;
  for (const auto& row : rows) {
    stated[row.field] += row.m3;
    sum += row.m3;
    out.findings.expect(flow > 0.0, "water outside the supply dates",
                        Place{&facts.farm(), year, day, row.field, ""}, [&] {
                          return Texts{fmt::format("{:.3f} m3", row.m3), "none"};
                        });
  }
  if (!rows.empty())
    out.findings.expect(sum <= flow + rounding_m3 || flow <= 0.0, "flow over the limit",
                        Place{&facts.farm(), year, day, -1, ""}, [&] {
                          return Texts{fmt::format("{:.3f} m3", sum), fmt::format("at most {:.3f} m3", flow)};
                        });
  double left = flow;
  for (const Ask& ask : asks(facts, decision, out.fields, day)) {
    FieldReplay& f = out.fields[static_cast<std::size_t>(ask.field)];
    const double due = std::max(0.0, std::min(ask.need_m3, left));
    const double said = stated.contains(ask.field) ? stated[ask.field] : 0.0;
    stated.erase(ask.field);
    out.findings.expect_near(said, due, rounding_m3, "water not as asked",
                             Place{&facts.farm(), year, day, ask.field, "m3"});
    const double given = std::abs(said - due) <= rounding_m3 ? due : said;
    left -= given > counts_m3 ? given : 0.0;
    if (given > counts_m3) f = let_in(facts, ask.field, std::move(f), given);
    if (!ask.fill || flow <= 0.0) continue;
    f.standing.begun = f.standing.begun || given > counts_m3;
    f.pass_ends = given >= ask.need_m3 - counts_m3;
  }
  for (const auto& [field, m3] : stated) {
    out.findings.expect(false, "water not asked for", Place{&facts.farm(), year, day, field, ""},
                        [said = m3] {
                          return Texts{fmt::format("{:.3f} m3", said), "none"};
                        });
    out.fields[static_cast<std::size_t>(field)] =
        let_in(facts, field, std::move(out.fields[static_cast<std::size_t>(field)]), m3);
  }
  return out;
}

}  // namespace aftercut::audit

#include "cash.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/numbers.hpp"

namespace aftercut::audit {
namespace {

bool leaves_the_pocket(const plan::CostPart& part) {
  return part.of != &plan::CostParts::ownership && part.of != &plan::CostParts::own_labour;
}

std::string month_name(int month) { return fmt::format("{:04d}-{:02d}", month / 12, month % 12 + 1); }

}  // namespace

MoneyByMonth::MoneyByMonth(const farm::Farm& farm, int fields)
    : farm_{&farm}, fields_(static_cast<std::size_t>(fields)) {}

plan::CostParts& MoneyByMonth::month_of_day(int day) {
  const Date date = farm_->season.date(day);
  return months_[12 * year_of(date) + month_of(date) - 1];
}

void MoneyByMonth::note(int field, int day, const plan::CostParts& cost) {
  OfField& known = fields_[static_cast<std::size_t>(field)];
  if (cost == known.cost) return;
  plan::CostParts& month = month_of_day(day);
  for (const plan::CostPart& part : plan::cost_parts) month.*part.of += cost.*part.of - known.cost.*part.of;
  if (cost.hire != known.cost.hire) known.hired = day;
  known.cost = cost;
}

void MoneyByMonth::note_end(int field, const plan::CostParts& cost) {
  const OfField& known = fields_[static_cast<std::size_t>(field)];
  const farm::Field& place = farm_->fields[static_cast<std::size_t>(field)];
  const auto add = [&](std::int64_t plan::CostParts::*part, int day) {
    if (const std::int64_t more = cost.*part - known.cost.*part; more != 0) month_of_day(day).*part += more;
  };
  add(&plan::CostParts::hire, known.hired);
  add(&plan::CostParts::late, farm_->season.day(place.next.planting));
  add(&plan::CostParts::unplanted, farm_->season.day(place.next.planting));
  if (place.lease) add(&plan::CostParts::lease_income, farm_->season.day(place.lease->until));
}

namespace {

/// One month of every replayed year.
struct LivedMonth {
  plan::CostParts sum;        // of all years
  std::vector<double> shown;  // cents out of pocket, of the shown years
};

LivedMonth lived_month(const plan::Plan& p, const Replays& replays, int month) {
  LivedMonth lived;
  for (std::size_t y = 0; y < replays.money.size(); ++y) {
    const auto at = replays.money[y].find(month);
    const plan::CostParts parts = at == replays.money[y].end() ? plan::CostParts{} : at->second;
    lived.sum = lived.sum + parts;
    if (std::find(p.shown_years.begin(), p.shown_years.end(), replays.years[y]) != p.shown_years.end())
      lived.shown.push_back(static_cast<double>(parts.out_of_pocket()));
  }
  return lived;
}

Findings check_month(const plan::MonthCash& said, const LivedMonth& lived, double years, double cents_off,
                     const std::string& name) {
  Findings f;
  const auto near = [&](std::int64_t found, double expected, double tolerance, const char* what) {
    f.expect(std::abs(static_cast<double>(found) - expected) <= tolerance, "wrong money of a month",
             Place{nullptr, -1, -1, -1, name + " " + what}, [&] {
               return Texts{fmt::format("{} cents", found), fmt::format("{:.2f} cents", expected)};
             });
  };
  for (const plan::CostPart& part : plan::cost_parts)
    if (leaves_the_pocket(part))
      near(said.mean.*part.of, static_cast<double>(lived.sum.*part.of) / years, cents_off, part.key);
  if (lived.shown.empty()) return f;
  near(said.p10, quantile(lived.shown, 0.1), cents_off, "p10");
  near(said.p90, quantile(lived.shown, 0.9), cents_off, "p90");
  return f;
}

}  // namespace

Findings check_cash(const farm::Farm& farm, const plan::Plan& p, const Replays& replays) {
  Findings f;
  std::map<int, plan::MonthCash> months;
  for (const auto& year : replays.money)
    for (const auto& [month, parts] : year) months[month] = {};
  std::int64_t sum = 0;
  for (const plan::MonthCash& cash : p.cash) {
    months[12 * cash.year + cash.month - 1] = cash;
    sum += cash.mean.out_of_pocket();
  }
  // Costs of a field and year agree to a cent, and a month holds those of all fields.
  const double cents_off = 1.0 + static_cast<double>(farm.fields.size());
  for (const auto& [month, said] : months)
    f += check_month(said, lived_month(p, replays, month), static_cast<double>(replays.money.size()),
                     cents_off, month_name(month));
  f.expect(sum == p.cost_cents, "months do not add up", Place{nullptr, -1, -1, -1, "cash"}, [&] {
    return Texts{fmt::format("{} cents", sum), fmt::format("{} cents", p.cost_cents)};
  });
  return f;
}

}  // namespace aftercut::audit

// What if the others do not come, dates to keep and money by month: short, for the terminal.

#include <algorithm>

#include "aftercut/core/week.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr std::size_t dates_shown = 6;

std::string ids_words(const farm::Farm& farm, const std::vector<int>& fields) {
  std::string out;
  for (const int f : fields)
    out += (out.empty() ? "" : " ") + farm.fields.at(static_cast<std::size_t>(f)).id.value;
  return out;
}

std::string test_words(const farm::Farm& farm, const plan::Plan& p, const plan::FallBackTest& t) {
  const auto years = static_cast<double>(p.shown_years.size());
  return fmt::format(
      "If {}: fall-backs start by the {}, in time in {:.0f} of {:.0f} years after one storm ({})", t.words,
      week_words(farm.season.date(*t.start_by)), t.chance * years, years, ids_words(farm, t.fields));
}

std::string date_words(const farm::Farm& farm, const plan::DateToKeep& d, int as_of) {
  const Date day = farm.season.date(d.day);
  const std::string when = d.day <= as_of ? "now" : d.worked_out ? week_words(day) : "by " + short_date(day);
  return fmt::format("{}: {} ({})", when, d.what, ids_words(farm, d.fields));
}

std::string cash_words(const farm::Farm& farm, const plan::Plan& p) {
  std::string months;
  for (const plan::MonthCash& c : p.cash) {
    const std::string day = short_date(make_date(c.year, c.month, 1));
    months += fmt::format("{}{} {}", months.empty() ? "" : ", ", day.substr(2),
                          with_thousands(money(c.mean.out_of_pocket())));
  }
  return months.empty() ? ""
                        : fmt::format("Money by month, {}, mean of all years: {}.", farm.currency, months);
}

}  // namespace

std::string others_text(const farm::Farm& farm, const plan::Plan& p) {
  std::string out;
  const auto add = [&](const std::string& line, std::size_t indent) {
    if (!line.empty()) out += wrapped(line, terminal_width, indent) + "\n";
  };
  for (const plan::FallBackTest& t : p.fall_back_tests)
    if (!t.late()) add(test_words(farm, p, t), 2);  // the others stand among the troubles
  if (!p.dates.empty()) out += "Dates to keep\n";
  for (std::size_t k = 0; k < std::min(dates_shown, p.dates.size()); ++k)
    add("  " + date_words(farm, p.dates[k], farm.season.day(p.as_of)), 4);
  if (p.dates.size() > dates_shown)
    out += fmt::format("  and {} more in the report\n", p.dates.size() - dates_shown);
  add(cash_words(farm, p), 2);
  return out;
}

}  // namespace aftercut::report

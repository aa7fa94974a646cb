// Chances of readiness on the real winters, each left out of its own ensemble, beside what then happened.

#include <fmt/format.h>

#include <cmath>

#include "aftercut/planner/search.hpp"
#include "aftercut/review/hindcast.hpp"
#include "catch2/catch.hpp"
#include "record_farm.hpp"
#include "tables.hpp"
#include "winters.hpp"

using namespace aftercut;
using namespace aftercut::validation;

namespace {

constexpr int evaluations = 600;  // of the search, once a winter

struct Looked {
  farm::Problem problem;
  plan::Hindcast hindcast;
};

Looked look_back(const farm::Problem& problem) {
  Looked l{.problem = review::past_winters(problem), .hindcast = {}};
  const farm::Calendar& season = l.problem.farm.season;
  l.hindcast = review::hindcast(
      {.problem = &l.problem,
       .days = {season.day(MonthDay{11, 1}), season.day(MonthDay{1, 1}), season.day(MonthDay{3, 1}),
                season.day(MonthDay{3, 15})},
       .seed = 0,
       .threads = 2,
       .choose = [](const dispatch::Table& table, const std::vector<std::size_t>& others) {
         return planner::search(
                    {.table = &table, .years = others, .seed = 0, .threads = 2, .evaluations = evaluations})
             .decision;
       }});
  return l;
}

const Looked& looked() {
  static const Looked l = look_back(record_farm());
  return l;
}

constexpr std::size_t november = 0, march = 2, dates_asked_for = 3;  // the last one came later

std::string date_words(const farm::Calendar& season, const plan::HindcastDate& date) {
  const char* const names[]{"January", "February", "March", "April"};
  const Date d = season.date(date.day);
  return fmt::format("{} {}", day_of_month(d), month_of(d) > 4 ? "November" : names[month_of(d) - 1]);
}

std::string share(const plan::ChanceClass& c, double value) {
  return c.field_winters == 0 ? "" : fmt::format("{:.2f}", value);
}

Table class_table(const Looked& l) {
  Table t{"hindcast classes",
          {"said on", "chance said", "field-winters", "winters", "mean said", "happened", "90 % interval"},
          {}};
  for (std::size_t d = 0; d < dates_asked_for; ++d) {
    const plan::HindcastDate& date = l.hindcast.dates[d];
    for (const plan::ChanceClass& c : date.classes)
      t.rows.push_back(
          {date_words(l.problem.farm.season, date), fmt::format("{:.2f} to {:.2f}", c.from, c.below),
           std::to_string(c.field_winters), std::to_string(c.winters), share(c, c.said), share(c, c.happened),
           c.interval ? fmt::format("{:.2f} to {:.2f}", c.interval->low, c.interval->high) : ""});
  }
  return t;
}

/// With its sign; what rounds to 0 has none.
std::string with_sign(double x, int digits) {
  if (std::round(x * std::pow(10.0, digits)) == 0.0) return fmt::format("{:.{}f}", 0.0, digits);
  return fmt::format("{:+.{}f}", x, digits);
}

std::string difference(const plan::BrierBeside& b) {
  return fmt::format("{} ({} to {})", with_sign(b.difference, 3), with_sign(b.interval->low, 3),
                     with_sign(b.interval->high, 3));
}

Table score_table(const Looked& l) {
  Table t{"hindcast scores",
          {"said on", "Brier score", "climatology's", "skill", "difference (90 % interval)",
           "the same plan's at the start", "skill", "difference (90 % interval)"},
          {}};
  for (const plan::HindcastDate& date : l.hindcast.dates) {
    std::vector<std::string> row{date_words(l.problem.farm.season, date),
                                 fmt::format("{:.3f}", date.scores.said)};
    for (const plan::BrierBeside& b : {date.scores.climatology, date.scores.at_start}) {
      row.push_back(fmt::format("{:.3f}", b.score));
      row.push_back(with_sign(100.0 * b.skill.value(), 0) + " %");
      row.push_back(difference(b));
    }
    t.rows.push_back(row);
  }
  return t;
}

/// Share of the winters in which a field was ready in time.
std::vector<double> chance_of_each(const plan::Hindcast& h, std::size_t fields) {
  std::vector<double> ready(fields, 0.0);
  for (const plan::SaidChance& c : h.dates.front().said)
    ready[static_cast<std::size_t>(c.field)] +=
        c.happened ? 1.0 / static_cast<double>(h.winters.size()) : 0.0;
  return ready;
}

}  // namespace

TEST_CASE("chances on the real winters against what then happened", "[cross]") {
  if (no_record()) return;
  const plan::Hindcast& h = looked().hindcast;
  REQUIRE(h.winters.size() == 24);
  REQUIRE(h.dates.size() == dates_asked_for + 1);
  for (const plan::HindcastDate& date : h.dates) CHECK(date.said.size() == 9 * 24);
  int unsure = 0;
  for (const double chance : chance_of_each(h, 9)) unsure += chance >= 0.2 && chance <= 0.9 ? 1 : 0;
  CHECK(unsure >= 7);
  CHECK(h.dates[november].scores.climatology.interval->low <= 0.0);
  CHECK(h.dates[november].scores.at_start.interval->low <= 0.0);
  CHECK(h.dates[march].scores.climatology.difference < 0.0);
  CHECK(page_holds(class_table(looked())));
  CHECK(page_holds(score_table(looked())));
}

TEST_CASE("nearer to planting more is known, and in the end all of it", "[identity]") {
  if (no_record()) return;
  const auto& dates = looked().hindcast.dates;
  CHECK(dates.back().scores.climatology.interval->high < 0.0);
  CHECK(dates.back().scores.at_start.interval->high < 0.0);
  const farm::Problem& p = looked().problem;
  const plan::Hindcast end = review::hindcast(
      {.problem = &p,
       .days = {p.farm.season.day(p.farm.fields.front().next.planting) + 1},
       .seed = 0,
       .threads = 2,
       .choose = [](const dispatch::Table& table, const std::vector<std::size_t>& others) {
         return planner::search({.table = &table, .years = others, .threads = 2, .evaluations = 1}).decision;
       }});
  CHECK(end.dates.front().scores.said == 0.0);
  CHECK(end.dates.front().scores.climatology.score > 0.05);
}

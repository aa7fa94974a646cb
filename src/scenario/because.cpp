// Why the chosen method, in words.

#include <fmt/format.h>

#include <cmath>

#include "aftercut/scenario/money_words.hpp"
#include "aftercut/scenario/words.hpp"

namespace aftercut::scenario {
namespace {

using Words = std::vector<std::string>;

/// One field's reasons in the making.
struct Telling {
  const farm::Farm& farm;
  const farm::Field& field;
  const plan::Chosen& chosen;
  const plan::NextBest& next;
  std::string mine, other;  ///< names of the methods

  [[nodiscard]] double per_ha(std::int64_t cents) const {
    return static_cast<double>(cents) / 100.0 / field.area.value();
  }
};

std::string joined(const Words& words, const char* between) {
  return fmt::format("{}", fmt::join(words, between));
}

std::string toss_up_words(const Telling& t) {
  Words why;
  const farm::Target& target = t.farm.target;
  if (t.chosen.toss_up.margin)
    why.push_back(
        fmt::format("less than the margin of {}", by_area_words(t.farm, target.toss_up_per_ha.value())));
  if (t.chosen.toss_up.years)
    why.push_back(fmt::format("less than the years' own scatter, {}",
                              by_area_words(t.farm, t.next.spread / 100.0 / t.field.area.value())));
  if (t.chosen.toss_up.straw_price)
    why.push_back(
        fmt::format("it turns within {:.0f} % of the straw price", 100.0 * target.straw_price_spread));
  if (t.chosen.toss_up.diesel_price)
    why.push_back(
        fmt::format("it turns within {:.0f} % of the price of diesel", 100.0 * target.diesel_price_spread));
  const double more = t.per_ha(t.next.saves);
  return fmt::format("a toss-up with {}: over all years it is {} {}; {}", t.other,
                     by_area_words(t.farm, std::abs(more)), more >= 0.0 ? "dearer" : "cheaper",
                     joined(why, "; "));
}

std::string saving_words(const Telling& t) {
  const double more = t.per_ha(t.next.saves);
  if (t.chosen.toss_up.any()) return toss_up_words(t);
  if (more >= 0.0)
    return fmt::format("saves the farm {} ({} a year) against {}, the next best", by_area_words(t.farm, more),
                       money_words(t.farm, t.next.saves), t.other);
  return fmt::format("{} would cost the farm {} less over all years: {}", t.other,
                     by_area_words(t.farm, -more),
                     t.chosen.locked ? "the lock costs that much"
                                     : "the choice was made on other years than those of its chances");
}

std::string decider_words(const Telling& t) {
  Words texts;
  for (const plan::Decider& d : t.next.decides) texts.push_back(d.text);
  return "what decides: " + joined(texts, "; ");
}

std::string break_even_words(const Telling& t, const plan::BreakEven& b) {
  return fmt::format("{} {} {} (now {})", price_name(t.farm, b.of, b.implement),
                     *b.even < b.now ? "below" : "above", price_with_unit(t.farm, b.of, *b.even),
                     price_with_unit(t.farm, b.of, b.now));
}

/// "X would win with straw below 21.40 USD/t (now 28.00 USD/t), or diesel above ...; no price of canal water
/// within reach turns it".
std::string turning_words(const Telling& t) {
  Words turns, out_of_reach;
  for (const plan::BreakEven& b : t.next.break_even) {
    if (b.even)
      turns.push_back(break_even_words(t, b));
    else
      out_of_reach.push_back(price_name(t.farm, b.of, b.implement));
  }
  const std::string winner = t.next.saves >= 0 ? t.other : t.mine;
  std::string text;
  if (!turns.empty())
    text =
        fmt::format("with the same work {} would be the cheaper one with {}", winner, joined(turns, ", or "));
  if (out_of_reach.empty()) return text;
  return fmt::format("{}{}no price of {} within reach turns it", text, text.empty() ? "" : "; ",
                     joined(out_of_reach, " or "));
}

std::string years_words(const Telling& t) {
  std::size_t won = 0;
  for (const std::int64_t s : t.next.saves_by_year) won += s < 0 ? 1 : 0;
  return fmt::format("{} would have been the cheaper one in {} of {} years", t.other, won,
                     t.next.saves_by_year.size());
}

std::string earlier_words(const Telling& t) {
  const double more = t.per_ha(*t.next.saves_cut_earlier);
  const std::string cut = t.next.earlier_days == 7 ? "cut a week earlier"
                                                   : fmt::format("cut {} days earlier", t.next.earlier_days);
  return fmt::format("{}, {} would be ahead by {}", cut, more >= 0.0 ? t.mine : t.other,
                     by_area_words(t.farm, std::abs(more)));
}

std::string waiting_words(const farm::Farm& farm, std::int64_t cents) {
  if (cents == 0) return "waiting a week with the first step costs nothing";
  return fmt::format("waiting a week with the first step {} the farm {}", cents > 0 ? "costs" : "saves",
                     money_words(farm, std::abs(cents)));
}

}  // namespace

std::vector<std::string> reasons(const farm::Farm& farm, const plan::FieldPlan& field, std::size_t index,
                                 int cheapest_alone) {
  const plan::Chosen& chosen = field.chosen;
  if (chosen.method == plan::none) return {"no method is possible here"};
  const auto name = [&](int m) { return farm.book.recipes[static_cast<std::size_t>(m)].name; };
  Words because;
  if (chosen.locked) because.push_back("locked by you");
  if (!chosen.next_best) because.push_back("the only method that is possible here");
  if (chosen.next_best) {
    const Telling t{farm,
                    farm.fields[index],
                    chosen,
                    *chosen.next_best,
                    name(chosen.method),
                    name(chosen.next_best->method)};
    because.push_back(saving_words(t));
    if (!t.next.decides.empty()) because.push_back(decider_words(t));
    if (std::string words = turning_words(t); !words.empty()) because.push_back(std::move(words));
    if (t.next.saves_by_year.size() > 1) because.push_back(years_words(t));
    if (t.next.saves_cut_earlier) because.push_back(earlier_words(t));
  }
  if (chosen.wait_a_week) because.push_back(waiting_words(farm, *chosen.wait_a_week));
  if (cheapest_alone != plan::none && cheapest_alone != chosen.method)
    because.push_back(fmt::format("{} would be cheapest on its own, but machines, water and days are shared",
                                  name(cheapest_alone)));
  return because;
}

}  // namespace aftercut::scenario

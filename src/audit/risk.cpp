#include "risk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "money.hpp"

namespace aftercut::audit {
namespace {

constexpr const char* not_reached = "wanted chance not reached";
constexpr double printed_chance = 5.001e-5, printed_money = 0.00501;
constexpr int eight_weeks = 56;

bool due(const farm::Field& f) { return f.next.kind != farm::NextUseKind::fallow; }

/// The fewest years that meet it.
int fewest(double chance, int years) {
  int ready = 0;
  while (!is_met(chance, ready, years)) ++ready;
  return ready;
}

/// Counts of one field by fold, from the replayed years.
struct ReadyByFold {
  int searched = 0, shown = 0;
};

class Risks {
 public:
  Risks(const Facts& facts, const plan::Plan& p, const Replays& replays)
      : farm_{facts.farm()}, p_{p}, told_{p.risk}, counted_(farm_.fields.size()) {
    for (std::size_t y = 0; y < replays.years.size(); ++y) {
      const bool shown = std::ranges::count(p.shown_years, replays.years[y]) > 0;
      shown_ += shown ? 1 : 0;
      searched_ += !shown || p.chances_in_sample ? 1 : 0;
      for (std::size_t f = 0; f < counted_.size(); ++f) {
        const bool ready = replays.fields[y][f].status == plan::Status::ready;
        counted_[f].shown += shown && ready ? 1 : 0;
        counted_[f].searched += (!shown || p.chances_in_sample) && ready ? 1 : 0;
      }
    }
  }

  Findings all() {
    check_head();
    check_wishes();
    check_trouble();
    check_late_price();
    check_listed();
    for (const plan::InTheWay& w : told_.in_the_way) check_way(w);
    return std::move(f_);
  }

 private:
  [[nodiscard]] Place at(int field, const char* what) const { return {&farm_, -1, -1, field, what}; }
  void same(int found, int expected, const char* rule, const Place& place) {
    f_.expect(found == expected, rule, place, [&] {
      return Texts{fmt::format("{}", found), fmt::format("{}", expected)};
    });
  }
  void holds(bool yes, const char* what, int field, const std::string& found, const std::string& expected) {
    f_.expect(yes, "wrong word on what stands in the way", at(field, what), [&] {
      return Texts{found, expected};
    });
  }

  void check_head() {
    f_.expect_near(p_.wanted_chance, farm_.target.wanted_chance, printed_chance, "wrong wish",
                   at(-1, "farm"));
    same(told_.search_years, searched_, "wrong count of years", at(-1, "searched"));
    same(told_.shown_years, shown_, "wrong count of years", at(-1, "shown"));
  }

  void check_wishes() {
    std::size_t k = 0;
    for (std::size_t f = 0; f < farm_.fields.size(); ++f) {
      if (!due(farm_.fields[f])) continue;
      const int field = static_cast<int>(f);
      const bool there = k < told_.wishes.size() && told_.wishes[k].field == field;
      f_.expect(there, "wish left out", at(field, ""), [] { return Texts{"another field", "this one"}; });
      if (!there) return;
      const plan::Wish& w = told_.wishes[k++];
      f_.expect_near(w.chance, wish_of(farm_, farm_.fields[f]), printed_chance, "wrong wish", at(field, ""));
      same(w.searched, counted_[f].searched, "wrong years ready", at(field, "searched"));
      same(w.shown, counted_[f].shown, "wrong years ready", at(field, "shown"));
    }
    same(static_cast<int>(told_.wishes.size()), static_cast<int>(k), "wish left out",
         at(-1, "fields with a wish"));
  }

  [[nodiscard]] std::vector<int> below() const {
    std::vector<int> fields;
    for (std::size_t f = 0; f < farm_.fields.size(); ++f)
      if (due(farm_.fields[f]) && !is_met(wish_of(farm_, farm_.fields[f]), counted_[f].shown, shown_))
        fields.push_back(static_cast<int>(f));
    return fields;
  }

  /// A plan is short of its wishes, and ends with exit code 1, exactly where the trouble says so.
  void check_trouble() {
    std::vector<int> said;
    for (const plan::Trouble& t : p_.troubles)
      if (t.name == not_reached) said.insert(said.end(), t.fields.begin(), t.fields.end());
    const std::vector<int> expected = below();
    f_.expect(said == expected, "wrong fields below their wish", at(-1, "troubles"), [&] {
      return Texts{fmt::format("{} fields", said.size()), fmt::format("{} fields", expected.size())};
    });
  }

  void check_late_price() {
    double money = 0.0, area = 0.0;
    for (const farm::Field& f : farm_.fields) {
      const int days = f.next.cut_off - f.next.planting;
      if (!due(f) || days <= 0) continue;
      const auto cents =
          cost_of_lateness(farm_, f, f.next.cut_off) - cost_of_lateness(farm_, f, f.next.planting);
      money += static_cast<double>(cents) / 100.0 / days;
      area += f.area.value();
    }
    const double expected = money > 0.0 ? money / area : 0.0;
    f_.expect_near(told_.late_per_ha_day.value_or(0.0), expected, printed_money, "wrong price of a late day",
                   at(-1, ""));
  }

  void check_listed() {
    std::vector<int> listed;
    for (const plan::InTheWay& w : told_.in_the_way) listed.push_back(w.field);
    const std::vector<int> expected = farm_.target.risk == farm::Risk::price ? std::vector<int>{} : below();
    holds(listed == expected, "fields", -1, fmt::format("{} fields", listed.size()),
          fmt::format("the {} below their wish, where it binds", expected.size()));
  }

  void check_way(const plan::InTheWay& w) {
    const farm::Field& field = farm_.fields[static_cast<std::size_t>(w.field)];
    const int wanted = fewest(wish_of(farm_, field), shown_);
    same(w.wanted, wanted, "wrong years ready", at(w.field, "wanted"));
    same(w.ready, counted_[static_cast<std::size_t>(w.field)].shown, "wrong years ready",
         at(w.field, "ready"));
    check_alone(w, field);
    const bool own_could = w.own_method_alone >= wanted,
               another_could = !own_could && w.alone.ready >= wanted;
    holds(w.other_method.has_value() == another_could, "other method", w.field,
          w.other_method ? "told" : "not told", another_could ? "told" : "not told");
    holds(w.first.has_value() == own_could && w.all_twice.has_value() == own_could, "shared things", w.field,
          w.first ? "told" : "not told", own_could ? "told" : "not told");
    if (w.more)
      holds(own_could && w.more->ready >= wanted && w.more->brings >= 1, "more", w.field,
            fmt::format("{} years", w.more->ready), fmt::format("at least {}", wanted));
    if (w.most)
      holds(own_could && !w.more && w.most->ready > w.ready && w.most->ready < wanted, "most", w.field,
            fmt::format("{} years", w.most->ready), fmt::format("between {} and {}", w.ready, wanted));
    for (const auto& other : {w.first, w.other_method})
      if (other) check_fallen(w.field, *other);
  }

  void check_fallen(int field, const plan::OtherWay& other) {
    holds(other.ready >= 0 && other.ready <= shown_, "years", field, fmt::format("{}", other.ready),
          fmt::format("at most {}", shown_));
    const std::vector<int> short_now = below();
    for (const int g : other.falls_below)
      holds(g != field && std::ranges::count(short_now, g) == 0, "falls below", field,
            farm_.fields[static_cast<std::size_t>(g)].id.value, "a field that has its wish in the plan");
  }

  void check_alone(const plan::InTheWay& w, const farm::Field& field) {
    const plan::AloneOnFarm& a = w.alone;
    const bool any = a.method != plan::none;
    holds(w.own_method_alone <= a.ready && a.ready <= shown_ && (!any || a.failed == shown_ - a.ready),
          "alone", w.field, fmt::format("{} ready, {} failed", a.ready, a.failed),
          fmt::format("{} years in all, the best method", shown_));
    const int looked =
        any && a.failed > 0
            ? std::clamp(field.next.planting - std::max(p_.as_of, field.next.planting - eight_weeks), 0,
                         eight_weeks)
            : 0;
    same(a.days_looked_at, looked, "wrong days of waiting", at(w.field, "looked at"));
    int days = 0;
    for (const plan::StepWaited& s : a.waits)
      for (const int d : s.days) days += d;
    const int most = a.failed * (a.days_looked_at - a.days_standing);
    f_.expect(days <= most, "wrong days of waiting", at(w.field, ""), [&] {
      return Texts{fmt::format("{}", days), fmt::format("at most {}", most)};
    });
  }

  const farm::Farm& farm_;
  const plan::Plan& p_;
  const plan::RiskTold& told_;
  std::vector<ReadyByFold> counted_;
  int searched_ = 0, shown_ = 0;
  Findings f_;
};

}  // namespace

double wish_of(const farm::Farm& farm, const farm::Field& f) {
  return f.next.wanted_chance ? *f.next.wanted_chance : farm.target.wanted_chance;
}

bool is_met(double chance, int ready, int years) {
  return static_cast<double>(ready) + 1e-9 * years >= chance * years;
}

Findings check_risk(const Facts& facts, const plan::Plan& p, const Replays& replays) {
  return Risks{facts, p, replays}.all();
}

}  // namespace aftercut::audit

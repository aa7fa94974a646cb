#include "aftercut/planner/walk.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

#include "aftercut/planner/anneal.hpp"

namespace aftercut::planner {
namespace {

using dispatch::QuickChange;
using dispatch::QuickRecord;

// Pasts alike within these pass for the same. Tried on the demo farm: costs within 0.2 % of the run's.
constexpr dispatch::Likeness likeness{.before_last = 3, .older = 7, .before_spring = 28, .water_mm = 10.0};
constexpr std::size_t most_spells = 250'000;  // kept at once, about a kilobyte each
constexpr std::uint32_t method_moves_in_ten = 5;
constexpr std::uint32_t near_places = 6;  // half of the moves in a list go no further
constexpr std::size_t years_before_giving_up = 3;
constexpr double doubt = 1.0;  // standard errors by which a neighbour may look too dear and still go on

/// Goes through the fields whose bit is set.
template <class Each>
void for_each_bit(std::uint64_t word, std::size_t first, const Each& each) {
  for (; word != 0; word &= word - 1) each(first + static_cast<std::size_t>(std::countr_zero(word)));
}

void set_bit(std::vector<std::uint64_t>& words, int field) {
  words[static_cast<std::size_t>(field) / 64] |= std::uint64_t{1} << (static_cast<unsigned>(field) % 64U);
}

class Walk {
 public:
  explicit Walk(const WalkInput& in)
      : in_{in},
        quick_{*in.table, likeness},
        now_{in.start},
        possible_{dispatch::possible_recipes(*in.table)} {
    out_.decision = now_;
    out_.cents = record_all();
    out_.short_ha_years = short_;
    prices_ = ShortPrices{farm(), in_.least_ready, out_.cents, in_.years.size()};
  }

  Walked run() {
    Annealing annealing{.moves = in_.moves,
                        .start_cost = out_.cents,
                        .heat = in_.heat * std::abs(out_.cents),
                        .judge = [this](Draws& d, double limit) { return judge(d, limit); },
                        .keep = [this] { keep(); },
                        .best = [this] { out_.decision = now_; },
                        .progress = in_.progress};
    if (in_.least_ready.empty()) {
      out_.cents = anneal(annealing, in_.draws);
      return out_;
    }
    annealing.best = [] {};  // by merit, when a change is kept
    annealing.stands = [this] {
      prices_.learn(ready_);
      return cents_ + prices_.cents(ready_);
    };
    anneal(annealing, in_.draws);
    return out_;
  }

 private:
  [[nodiscard]] const farm::Farm& farm() const { return in_.table->problem->farm; }

  double record_all() {
    records_.clear();
    cents_ = 0.0;
    ready_.assign(in_.least_ready.size(), 0);
    for (const std::size_t y : in_.years) {
      records_.push_back(quick_.run(now_, y));
      cents_ += static_cast<double>(records_.back().cents);
      ++out_.runs;
      for (std::size_t f = 0; f < ready_.size(); ++f) ready_[f] += in_time(records_.back(), f) ? 1 : 0;
    }
    short_ = short_ha_years(farm(), in_.least_ready, ready_);
    return cents_;
  }

  /// Nothing where the draw changes nothing.
  std::optional<QuickChange> draw_change(Draws& draws) {
    const auto n = static_cast<std::uint32_t>(now_.method.size());
    next_ = now_;
    QuickChange change;
    if (!in_.orders_only && draws.below(10) < method_moves_in_ten) {
      const auto f = draws.below(n);
      const auto& possible = possible_[f];
      if (possible.size() < 2) return std::nullopt;
      next_.method[f] = possible[draws.below(static_cast<std::uint32_t>(possible.size()))];
      change.field = static_cast<int>(f);
      if (next_.method[f] == now_.method[f]) return std::nullopt;
      return change;
    }
    change.spring = draws.below(2) == 1;
    change.moved.assign(quick_.words(), 0);
    change.across = change.moved;
    auto& list = change.spring ? next_.spring_order : next_.autumn_order;
    const auto from = draws.below(n), to = draw_place(from, n, draws);
    if (from == to) return std::nullopt;
    const int field = list[from];
    set_bit(change.moved, field);
    for (auto k = std::min(from, to); k <= std::max(from, to); ++k)
      if (k != from) set_bit(change.across, list[k]);
    list.erase(list.begin() + from);
    list.insert(list.begin() + to, field);
    return change;
  }

  static std::uint32_t draw_place(std::uint32_t from, std::uint32_t n, Draws& draws) {
    if (draws.below(2) == 0) return draws.below(n);
    const std::uint32_t by = 1 + draws.below(near_places);
    return draws.below(2) == 0 ? std::min(n - 1, from + by) : from - std::min(from, by);
  }

  static bool in_time(const QuickRecord& r, std::size_t f) {
    return (r.in_time[f / 64] >> (f % 64) & 1) != 0;
  }

  std::optional<double> judge(Draws& draws, double limit) {
    if (quick_.spells() > most_spells) forget();
    changed_.clear();
    const auto change = draw_change(draws);
    if (!change) return std::nullopt;
    const double room = limit - cents_;
    start_counts();
    double off = 0.0, squares = 0.0;
    for (std::size_t k = 0; k < in_.years.size(); ++k) {
      const int day = quick_.first_changed_day(records_[k], *change, in_.years[k]);
      double by = 0.0;
      if (day < in_.table->problem->farm.season.days) {
        by =
            static_cast<double>(quick_.cents_from(records_[k], next_, in_.years[k], day) - records_[k].cents);
        count_changed(k);
        changed_.emplace_back(k, day);
        ++out_.runs;
      } else {
        ++out_.skipped;
      }
      off += by;
      squares += by * by;
      if (looks_too_dear(off, squares, k + 1, room - sure_short_cents(k))) return std::nullopt;
    }
    next_cents_ = cents_ + off;
    next_short_ = short_ha_years(farm(), in_.least_ready, next_ready_);
    return next_cents_ + prices_.cents(next_ready_);
  }

  void start_counts() {
    next_ready_ = ready_;
    may_gain_.resize(ready_.size());
    hoped_.resize(ready_.size());
    for (std::size_t f = 0; f < ready_.size(); ++f)
      may_gain_[f] = static_cast<int>(in_.years.size()) - ready_[f];
  }

  /// Fields that the neighbour brings in time, or no longer, in the year that was played last.
  void count_changed(std::size_t k) {
    if (ready_.empty()) return;
    const auto& now = quick_.in_time();
    for (std::size_t w = 0; w < now.size(); ++w)
      for_each_bit(now[w] ^ records_[k].in_time[w], 64 * w,
                   [&](std::size_t f) { next_ready_[f] += in_time(records_[k], f) ? -1 : 1; });
  }

  /// Of what is short after the years up to k even if the neighbour is in time in all years to come.
  double sure_short_cents(std::size_t k) {
    if (ready_.empty()) return 0.0;
    for (std::size_t f = 0; f < ready_.size(); ++f) {
      may_gain_[f] -= in_time(records_[k], f) ? 0 : 1;
      hoped_[f] = next_ready_[f] + may_gain_[f];
    }
    return prices_.cents(hoped_);
  }

  /// After some of the years: even on the hopeful side of what they tell, all of them will be above the room.
  [[nodiscard]] bool looks_too_dear(double off, double squares, std::size_t seen, double room) const {
    const auto n = static_cast<double>(seen), all = static_cast<double>(in_.years.size());
    if (seen < years_before_giving_up || seen == in_.years.size()) return false;
    const double mean = off / n;
    const double spread = std::sqrt(std::max(0.0, squares / n - mean * mean));
    return off + (all - n) * (mean - doubt * spread / std::sqrt(n)) > room;
  }

  void keep() {
    now_ = next_;
    cents_ = next_cents_;
    ready_ = next_ready_;
    short_ = next_short_;
    if (!ready_.empty() && Merit{short_, cents_} < Merit{out_.short_ha_years, out_.cents}) {
      out_.decision = now_;
      out_.cents = cents_;
      out_.short_ha_years = short_;
    }
    for (const auto& [k, day] : changed_) {
      QuickRecord r = quick_.run_from(records_[k], now_, in_.years[k], day);
      records_[k] = quick_.joined(std::move(records_[k]), std::move(r));
    }
    changed_.clear();
  }

  /// Memory is bounded: what is known of fields is dropped, and where the walk stands is worked out anew.
  void forget() {
    quick_ = dispatch::QuickRuns{*in_.table, likeness};
    record_all();
  }

  const WalkInput& in_;
  dispatch::QuickRuns quick_;
  plan::Decision now_, next_;
  double cents_ = 0.0, next_cents_ = 0.0;
  double short_ = 0.0, next_short_ = 0.0;  // hectare-years
  ShortPrices prices_;
  std::vector<int> ready_, next_ready_, may_gain_, hoped_;  // [field] years; empty without wishes
  std::vector<QuickRecord> records_;                        // [year of the search]
  std::vector<std::pair<std::size_t, int>>
      changed_;                             // years of the neighbour judged last, and from which day
  std::vector<std::vector<int>> possible_;  // [field]
  Walked out_;
};

}  // namespace

Walked walk(const WalkInput& input) { return Walk{input}.run(); }

}  // namespace aftercut::planner

#pragma once
// A field's weather year in spells: from the end of one pass to the end of the next, lived once and looked up
// ever after (docs/quick-runs.md). What a spell's days let the field do follows from its past alone, so plans
// that agree in a field's past share its spells; pasts that are nearly the same may be told to share them
// too.

#include <array>
#include <cstdint>
#include <deque>
#include <memory>
#include <unordered_map>
#include <vector>

#include "aftercut/dispatch/progress.hpp"
#include "aftercut/dispatch/table.hpp"

namespace aftercut::dispatch {

/// When two pasts of a field pass for the same: the days to which the ends of passes are rounded and the
/// depth to which canal water is. The last end always counts to the day.
struct Likeness {
  int before_last = 1;    ///< [days] the end before the last
  int older = 1;          ///< [days] all ends before that
  int before_spring = 1;  ///< [days] in spring, the ends of autumn and winter steps
  double water_mm = 0.0;  ///< canal water so far; 0: to a thousandth of a millimetre
};

/// One bit for each season day.
class DayBits {
 public:
  static constexpr int most_days = 384;
  void set(int day) { words_[static_cast<std::size_t>(day) / 64] |= bit(day); }
  [[nodiscard]] bool has(int day) const {
    return (words_[static_cast<std::size_t>(day) / 64] & bit(day)) != 0;
  }
  /// The first set day from `day` on, before `until`; `until` when there is none.
  [[nodiscard]] int next(int day, int until) const;
  /// How many days of [from, until) are set.
  [[nodiscard]] int count(int from, int until) const;

 private:
  static std::uint64_t bit(int day) { return std::uint64_t{1} << (static_cast<unsigned>(day) % 64U); }
  std::array<std::uint64_t, most_days / 64> words_{};
};

/// Something that has happened to the field.
struct PastEvent {
  int step = 0;  ///< of the recipe then in force
  int pass = 0;
  int day = 0;
  int implement = plan::none;
  bool spring = false, fell_back = false;
  bool met = true;        ///< the water was all that the fill asked for
  double share = 1.0;     ///< of the field, when it broke off
  double water_mm = 0.0;  ///< from the canal, by a fill
};

/// What ended a spell, and the spell behind it.
struct SpellEnd {
  enum class By : std::uint8_t { pass, water, dates };
  By by = By::pass;
  bool met = true;  ///< the water was all that the fill asked for
  std::int16_t day = 0;
  int implement = plan::none;
  int to = 0;
  double amount = 0.0;           ///< water let in [mm]; area that dates broke off [ha]
  double baled_kg_per_ha = 0.0;  ///< dry, taken off by the pass that ended or broke off
  double baled_share = 1.0;      ///< of the field, that such a pass covered
  std::optional<int> broken_by;  ///< implement of a baling that broke off; none: of the last stretch
};

/// A field left alone since its last pass, as plans look at it.
struct Spell {
  std::array<DayBits, 2> open;    ///< [begun] the current step can be worked on; begun: some of it has been
  std::array<int, 2> moves_on{};  ///< [begun] the morning on which dates alone move it on; season's end: none
  int first_day = 0;
  int known_until = 0;  ///< days before it are known
  int operation = plan::none;
  bool finished = false, spring = false, boards_in = false;
  std::vector<double> draft;  ///< [day - first_day], of a tillage step
  std::vector<SpellEnd> ends;
};

/// The same field from inside.
struct SpellState {
  season::FieldYear sim;             ///< on the first morning
  Progress progress;                 ///< settled on that morning
  int setting = 0;                   ///< of the combine, see Table::mornings
  int before = plan::none;           ///< the spell before
  PastEvent last;                    ///< how that one ended
  DayBits standing;                  ///< mornings on which water stands
  std::vector<double> need_mm = {};  ///< [day - first_day], of a fill
  std::vector<double> topped_mm =
      {};  ///< [day - first_day] canal water that keeps the pond up, summed so far
  std::unique_ptr<season::FieldYear> front = {};  ///< lived to the morning of known_until
};

/// The spells of one field in one weather year. Grows as it is asked; indices stay good.
class Spells {
 public:
  Spells(const Table& table, std::size_t field, std::size_t year, const Likeness& like);

  /// The field's first morning under a recipe; none: no method.
  int first(int recipe);
  /// What that morning made of a pass that ran and was broken off on it; nothing baled where none was.
  [[nodiscard]] const SpellEnd& broken_off_at_first(int recipe) const {
    return first_ends_[static_cast<std::size_t>(recipe + 1)];
  }
  [[nodiscard]] const Spell& at(int spell) const { return spells_[static_cast<std::size_t>(spell)]; }
  [[nodiscard]] const SpellState& state(int spell) const { return states_[static_cast<std::size_t>(spell)]; }
  /// The same, its days before `until` known.
  const SpellState& known(int spell, int until);
  /// The first day from `day` on that is open or on which the spell moves on; the season's end when none is.
  int next_day(int spell, int day, bool begun) {
    const Spell& s = at(spell);
    const int until = std::min(s.known_until, s.moves_on[begun]);
    const int next = s.open[begun].next(day, until);
    return next < until || s.moves_on[begun] < s.known_until ? next : look_further(spell, day, begun);
  }
  /// The pass ends on `day`, or so much canal water came on it (`met`: all that the fill asks for).
  const SpellEnd& end_pass(int spell, int day, int implement);
  const SpellEnd& let_in(int spell, int day, double mm, bool met);
  /// Dates move the field on, on the morning of `day`, with so much of the pass done.
  const SpellEnd& move_on(int spell, int day, double done_ha, int implement);
  [[nodiscard]] std::size_t count() const { return spells_.size(); }

 private:
  struct Key {
    std::uint64_t a = 0, b = 0;
    bool operator==(const Key&) const = default;
  };
  struct HashOfKey {
    std::size_t operator()(const Key& k) const { return k.a; }
  };
  int look_further(int spell, int day, bool begun);
  void grow(int spell, int until);
  void learn_day(Spell& spell, SpellState& state);
  void live_day(const Spell& spell, const SpellState& state, season::FieldYear& sim) const;
  [[nodiscard]] season::FieldYear on_morning(int spell, int day) const;
  /// The field's first morning settled, what breaks off on it done to the field.
  SpellState first_state(int recipe);
  /// What was done of a pass takes effect on the morning of `day`.
  void break_off(season::FieldYear& sim, const BrokenOff& pass, SpellEnd& end) const;
  [[nodiscard]] Key key_of(const SpellState& state) const;
  /// The spell with this past, opened if nothing like it is known; the state is not yet settled.
  int open_spell(SpellState state);
  [[nodiscard]] SpellState behind(int spell, season::FieldYear sim, const Progress& p,
                                  const PastEvent& last) const;
  const SpellEnd& add_end(int spell, SpellEnd end, SpellState next);
  const SpellEnd& add_pass(int spell, int day, int implement);
  const SpellEnd& add_water(int spell, int day, double mm, bool met);
  const SpellEnd& add_move(int spell, int day, double done_ha, int implement);

  const Table* table_;
  std::size_t field_, year_;
  Likeness like_;
  int season_end_;
  std::vector<Spell> spells_;
  std::deque<SpellState> states_;
  std::unordered_map<Key, int, HashOfKey> by_past_;
  std::vector<int> first_;            // [recipe + 1]
  std::vector<SpellEnd> first_ends_;  // [recipe + 1]
};

}  // namespace aftercut::dispatch

#include "aftercut/dispatch/quick_runs.hpp"

#include <algorithm>

#include "aftercut/core/require.hpp"
#include "quick_play.hpp"

namespace aftercut::dispatch {

QuickRuns::QuickRuns(const Table& table, const Likeness& like)
    : table_{&table}, like_{like}, spells_(table.drivers.size()), play_{std::make_unique<Play>(table)} {}
QuickRuns::QuickRuns(QuickRuns&&) noexcept = default;
QuickRuns& QuickRuns::operator=(QuickRuns&&) noexcept = default;
QuickRuns::~QuickRuns() = default;

void QuickRuns::enter_year(const plan::Decision& decision, std::size_t year, bool record) {
  require(decision.method.size() == table_->problem->farm.fields.size(),
          "a decision names a method for each field");
  auto& of_year = spells_[year];
  while (of_year.size() < decision.method.size())
    of_year.push_back(std::make_unique<Spells>(*table_, of_year.size(), year, like_));
  play_->set_year(decision, year, of_year, record);
}

QuickRecord QuickRuns::run(const plan::Decision& decision, std::size_t year) {
  enter_year(decision, year, true);
  play_->start();
  play_->play();
  return play_->taken();
}

std::int64_t QuickRuns::cents(const plan::Decision& decision, std::size_t year) {
  enter_year(decision, year, false);
  play_->start();
  play_->play();
  return play_->cents();
}

int QuickRuns::first_changed_day(const QuickRecord& base, const QuickChange& change, std::size_t year) {
  if (change.field != plan::none) {
    Spells& spells = *spells_[year][static_cast<std::size_t>(change.field)];
    return spells.at(spells.first(plan::none)).first_day;
  }
  const auto& asked = base.asked[change.spring];
  const std::size_t words = play_->words();
  for (std::size_t d = 0; d * words < asked.size(); ++d) {
    bool moved = false, across = false;
    for (std::size_t w = 0; w < words; ++w) {
      moved = moved || (asked[d * words + w] & change.moved[w]) != 0;
      across = across || (asked[d * words + w] & change.across[w]) != 0;
    }
    if (moved && across) return static_cast<int>(d);
  }
  return table_->problem->farm.season.days;
}

std::size_t QuickRuns::go_on(const QuickRecord& base, const plan::Decision& changed, std::size_t year,
                             int day, bool record) {
  enter_year(changed, year, record);
  const HiredSeason hired{*table_, changed, year, false};
  const auto after = std::ranges::upper_bound(base.mornings, day, {}, &QuickMorning::day);
  if (after == base.mornings.begin() || hired.there_from() != base.mornings.front().hired.there_from()) {
    play_->start();
    return 0;
  }
  play_->go_on(*(after - 1));
  return static_cast<std::size_t>(after - base.mornings.begin()) - 1;
}

std::int64_t QuickRuns::cents_from(const QuickRecord& base, const plan::Decision& changed, std::size_t year,
                                   int day) {
  go_on(base, changed, year, day, false);
  play_->play();
  return play_->cents();
}

QuickRecord QuickRuns::run_from(const QuickRecord& base, const plan::Decision& changed, std::size_t year,
                                int day) {
  const std::size_t kept = go_on(base, changed, year, day, true);
  play_->play();
  QuickRecord record = play_->taken();
  record.kept_mornings = kept;
  return record;
}

QuickRecord QuickRuns::joined(QuickRecord base, QuickRecord changed) const {
  base.cents = changed.cents;
  base.fields = std::move(changed.fields);
  base.in_time = std::move(changed.in_time);
  const std::size_t from = static_cast<std::size_t>(changed.from_day) * play_->words();
  for (const bool spring : {false, true})
    std::copy(changed.asked[spring].begin() + static_cast<std::ptrdiff_t>(from), changed.asked[spring].end(),
              base.asked[spring].begin() + static_cast<std::ptrdiff_t>(from));
  base.mornings.erase(base.mornings.begin() + static_cast<std::ptrdiff_t>(changed.kept_mornings),
                      base.mornings.end());
  std::ranges::move(changed.mornings, std::back_inserter(base.mornings));
  return base;
}

const std::vector<std::uint64_t>& QuickRuns::in_time() const { return play_->in_time(); }

std::size_t QuickRuns::words() const { return play_->words(); }

std::size_t QuickRuns::spells() const {
  std::size_t n = 0;
  for (const auto& fields : spells_)
    for (const auto& s : fields) n += s->count();
  return n;
}

}  // namespace aftercut::dispatch

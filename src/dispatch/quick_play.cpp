#include "quick_play.hpp"

#include <algorithm>
#include <bit>

#include "aftercut/core/numbers.hpp"
#include "aftercut/dispatch/money.hpp"
#include "aftercut/dispatch/waterways.hpp"

namespace aftercut::dispatch {
namespace {

constexpr int days_between_mornings = 14;  // that a record keeps

}  // namespace

QuickRuns::Play::Play(const Table& table)
    : t_{table}, farm_{table.problem->farm}, pool_{table, std::vector<int>(table.implement_here.size(), 0)} {
  const std::size_t n = farm_.fields.size();
  words_ = (n + 63) / 64;
  in_time_.resize(words_);
  agenda_.resize(static_cast<std::size_t>(farm_.season.days) * words_);
  for (const bool spring : {false, true}) {
    by_place_[spring].resize(words_);
    place_[spring].resize(n);
  }
  morning_ = {std::vector<double>(n, 0.0), std::vector<char>(n, 0)};
  for (std::size_t f = 0; f < n; ++f)
    linked_ = linked_ || !t_.fills_from[f].empty() || !t_.drains_to[f].empty();
}

void QuickRuns::Play::set_year(const plan::Decision& decision, std::size_t year,
                               const std::vector<std::unique_ptr<Spells>>& spells, bool record) {
  decision_ = &decision;
  year_ = year;
  spells_ = &spells;
  records_ = record;
  record_ = {};
  for (const bool spring : {false, true})
    if (records_) record_.asked[spring].assign(agenda_.size(), 0);
  std::ranges::fill(agenda_, 0);
  for (std::size_t k = 0; k < decision.autumn_order.size(); ++k) {
    place_[0][static_cast<std::size_t>(decision.autumn_order[k])] = k;
    place_[1][static_cast<std::size_t>(decision.spring_order[k])] = k;
  }
}

void QuickRuns::Play::start() {
  hired_.emplace(t_, *decision_, year_, false);
  pool_.set_there_from(hired_->there_from());
  burned_ = {.season_ha = t_.so_far ? t_.so_far->burned_ha : 0.0};
  today_ = 0;
  fields_.assign(farm_.fields.size(), {});
  for (std::size_t f = 0; f < fields_.size(); ++f) enter_first(f);
}

void QuickRuns::Play::go_on(const QuickMorning& morning) {
  hired_ = morning.hired;
  pool_.set_there_from(hired_->there_from());
  burned_ = {.season_ha = morning.burned_ha};
  today_ = morning.day;
  fields_ = morning.fields;
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    const int first = (*spells_)[f]->first(decision_->method[f]);
    if ((*spells_)[f]->at(first).first_day >= today_) {
      enter_first(f);
    } else {
      put_on_agenda(f);
    }
  }
}

void QuickRuns::Play::play() {
  record_.from_day = today_;
  int keep_on = today_;
  for (; today_ < farm_.season.days; ++today_) {
    const auto here = std::span{agenda_}.subspan(static_cast<std::size_t>(today_) * words_, words_);
    if (std::ranges::all_of(here, [](std::uint64_t w) { return w == 0; })) continue;
    if (records_ && today_ >= keep_on) {
      record_.mornings.push_back({today_, fields_, *hired_, burned_.season_ha});
      keep_on = today_ + days_between_mornings;
    }
    live_day(today_);
  }
  std::ranges::fill(in_time_, 0);
  for (std::size_t f = 0; f < fields_.size(); ++f) {
    close(f);
    record_.cents += fields_[f].cents;
  }
  if (!records_) return;
  record_.fields = fields_;
  record_.in_time = in_time_;
}

/// The field's first morning, by what has been done on it so far.
void QuickRuns::Play::enter_first(std::size_t f) {
  const int method = decision_->method[f];
  fields_[f] = {};
  fields_[f].watered = watered_before(t_, f);
  fields_[f].lease_days = leased_before(t_, f);
  if (method != plan::none) fields_[f].implement = t_.starts[f][static_cast<std::size_t>(method)].implement;
  const int first = (*spells_)[f]->first(method);
  const SpellEnd& end = (*spells_)[f]->broken_off_at_first(method);
  fields_[f].implement = end.broken_by.value_or(fields_[f].implement);
  sell(f, end);
  enter(f, first);
}

/// The field goes on in this spell.
void QuickRuns::Play::enter(std::size_t f, int spell) {
  QuickField& s = fields_[f];
  s.spell = spell;
  s.begun = false;
  s.left_ha = left_ha(f);
  look_again(f, (*spells_)[f]->at(spell).first_day);
}

/// What a pass of the spell's step covers.
double QuickRuns::Play::asked_ha(std::size_t f) const {
  return farm_.fields[f].area.value() * share_asked((*spells_)[f]->state(fields_[f].spell).progress);
}

/// What is left of the pass on the spell's first morning.
double QuickRuns::Play::left_ha(std::size_t f) const {
  return asked_ha(f) - (*spells_)[f]->state(fields_[f].spell).progress.area_done_ha;
}

void QuickRuns::Play::look_again(std::size_t f, int from) {
  QuickField& s = fields_[f];
  s.due = (*spells_)[f]->next_day(s.spell, from, s.begun);
  put_on_agenda(f);
}

void QuickRuns::Play::put_on_agenda(std::size_t f) {
  if (const int day = fields_[f].due; day < farm_.season.days)
    agenda_[static_cast<std::size_t>(day) * words_ + f / 64] |= std::uint64_t{1} << (f % 64);
}

/// Leaves the spell after the morning of `last`: water kept up, rounds after storms, days of a lease.
void QuickRuns::Play::leave(std::size_t f, int last) {
  QuickField& s = fields_[f];
  const Spell& spell = (*spells_)[f]->at(s.spell);
  const farm::Field& field = farm_.fields[f];
  if (!spell.boards_in && !field.lease) return;
  const SpellState& state = (*spells_)[f]->known(s.spell, last + 1);
  if (!state.topped_mm.empty() && last >= spell.first_day) {
    const double mm = state.topped_mm[static_cast<std::size_t>(last - spell.first_day)];
    if (mm > 0.0) pay_water(f, mm * field.area.value() * m3_per_mm_ha);
  }
  if (spell.boards_in)
    for (int d = spell.first_day; d <= last; ++d)
      s.cents +=
          storm_round(farm_, f, t_.drivers[year_].rain_mm[static_cast<std::size_t>(d)]).cost.out_of_pocket();
  if (field.lease)
    s.lease_days += state.standing.count(std::max(spell.first_day, farm_.season.day(field.lease->from)),
                                         std::min(last, farm_.season.day(field.lease->until)) + 1);
}

void QuickRuns::Play::live_day(int day) {
  pool_.start_day(day);
  flow_left_m3_ = flow_of(t_, day);
  drained_today_ha_ = 0.0;
  burned_ = {.season_ha = burned_.season_ha};
  morning_known_ = false;
  ended_.clear();
  for (std::size_t w = 0; w < words_; ++w)
    for (std::uint64_t rest = agenda_[static_cast<std::size_t>(day) * words_ + w]; rest != 0;
         rest &= rest - 1)
      wake(64 * w + static_cast<std::size_t>(std::countr_zero(rest)), day);
  serve_all(false, day);
  serve_all(true, day);
  for (const std::size_t f : ended_) rest(f, day);
}

void QuickRuns::Play::wake(std::size_t f, int day) {
  QuickField& s = fields_[f];
  while ((*spells_)[f]->at(s.spell).moves_on[s.begun] == day) {
    const double done = asked_ha(f) - s.left_ha;
    const SpellEnd& end =
        (*spells_)[f]->move_on(s.spell, day, s.begun ? done : 0.0, done > 0.0 ? s.implement : plan::none);
    leave(f, day - 1);
    s.implement = end.broken_by.value_or(s.implement);
    sell(f, end);
    s.spell = end.to;
    s.begun = false;
    s.left_ha = left_ha(f);
    const int next = (*spells_)[f]->next_day(s.spell, day, false);
    if (next != day) return look_again(f, day);
  }
  const bool spring = (*spells_)[f]->at(s.spell).spring;
  const std::size_t place = place_[spring][f];
  by_place_[spring][place / 64] |= std::uint64_t{1} << (place % 64);
  if (records_)
    record_.asked[spring][static_cast<std::size_t>(day) * words_ + f / 64] |= std::uint64_t{1} << (f % 64);
}

void QuickRuns::Play::serve_all(bool spring, int day) {
  const auto& order = spring ? decision_->spring_order : decision_->autumn_order;
  auto& places = by_place_[spring];
  for (std::size_t w = 0; w < words_; ++w) {
    for (std::uint64_t rest = places[w]; rest != 0; rest &= rest - 1) {
      const auto f =
          static_cast<std::size_t>(order[64 * w + static_cast<std::size_t>(std::countr_zero(rest))]);
      serve(f, day);
      if (fields_[f].pass_ends || fields_[f].water_mm > 0.0) {
        ended_.push_back(f);
      } else {
        look_again(f, day + 1);
      }
    }
    places[w] = 0;
  }
}

void QuickRuns::Play::rest(std::size_t f, int day) {
  QuickField& s = fields_[f];
  const auto operation = static_cast<std::size_t>((*spells_)[f]->at(s.spell).operation);
  const bool filling = farm_.book.operations[operation].water == method::Water::fill;
  const SpellEnd& end = filling ? (*spells_)[f]->let_in(s.spell, day, s.water_mm, s.pass_ends)
                                : (*spells_)[f]->end_pass(s.spell, day, s.implement);
  leave(f, day);
  s.implement = end.broken_by.value_or(s.implement);
  sell(f, end);
  s.pass_ends = false;
  s.water_mm = 0.0;
  enter(f, end.to);
}

bool QuickRuns::Play::is_ready(std::size_t f, const Spell& spell) const {
  return spell.finished && decision_->method[f] != plan::none &&
         farm_.fields[f].next.kind != farm::NextUseKind::fallow;
}

void QuickRuns::Play::close(std::size_t f) {
  QuickField& s = fields_[f];
  const Spell& spell = (*spells_)[f]->at(s.spell);
  const farm::Field& field = farm_.fields[f];
  const bool ready = is_ready(f, spell);
  if (!ready) leave(f, farm_.season.days - 1);
  s.ready_day = ready ? (*spells_)[f]->state(s.spell).progress.pass_end : plan::none;
  const plan::Status status =
      decision_->method[f] == plan::none ? plan::Status::no_method : status_of(farm_, field, s.ready_day);
  if (status == plan::Status::ready) in_time_[f / 64] |= std::uint64_t{1} << (f % 64);
  s.cents +=
      hired_->top_up(f).out_of_pocket() + outcome_cost(farm_, field, status, s.ready_day).out_of_pocket();
  if (const auto paid = lease_paid(farm_, field, s.lease_days)) s.cents += paid->out_of_pocket();
}

}  // namespace aftercut::dispatch

// What each kind of entry does to a problem.

#include <algorithm>

#include "settling.hpp"

namespace aftercut::journal {
namespace {

std::optional<straw::Lay> lay_named(const std::string& word) {
  if (word == "windrow") return straw::Lay::windrow;
  if (word == "spread") return straw::Lay::spread;
  if (word == "chopped") return straw::Lay::chopped;
  return std::nullopt;
}

}  // namespace

void Settling::settle(const Harvested& x) {
  const auto f = field();
  if (!f || entry_->done_on >= problem_.as_of) return;
  farm::Field& field = problem_.farm.fields[*f];
  if (x.yield_kg_per_ha && field.grain && field.grain->value() > 0.0)
    field.straw_load = KgPerHa{field.straw_load.value() * *x.yield_kg_per_ha / field.grain->value()};
  else if (x.yield_kg_per_ha)
    problem_.farm.notes.push_back(
        fmt::format("{}: its straw was entered, so that the yield of {:.0f} kg/ha leaves it as it is",
                    field.id.value, *x.yield_kg_per_ha));
  if (x.yield_kg_per_ha && field.grain) field.grain = KgPerHa{*x.yield_kg_per_ha};
  if (const auto lay = lay_named(x.lay)) field.lay = *lay;
  if (x.cut_height_cm) field.cut_height_cm = *x.cut_height_cm;
  field.cut = true;
  field.harvest = entry_->done_on;
  field.summer_drain = std::min(field.summer_drain, field.harvest);
}

void Settling::settle(const Worked& x) {
  const auto f = field();
  const auto o = operation(x.operation);
  if (!f || !o || !cut_by_then(*f)) return;
  const method::Operation& op = problem_.farm.book.operations[static_cast<std::size_t>(*o)];
  farm::WorkDone work{.field = *f,
                      .operation = *o,
                      .area_ha = x.area_ha.value_or(0.0),
                      .finishes = x.finished,
                      .no_more = x.no_more,
                      .by_others = x.by_others,
                      .hours = x.hours,
                      .fuel_l = x.fuel_l};
  if (x.board_cm) work.board_mm = 10.0 * *x.board_cm;
  if (!put_with(x.with, op, work)) return;
  if (work.implement == farm::nobody && !x.by_others)
    work.implement = only_one_of_kind(problem_.farm, op.implement).value_or(farm::nobody);
  add(work);
}

void Settling::settle(const Rain& x) {
  farm::RainCaught rain{std::nullopt, x.mm, 0.0};
  if (entry_->field) {
    const auto f = field();
    if (!f) return;
    rain.field = *f;
  }
  add(rain);
}

void Settling::settle(const Looked& x) {
  const auto f = field();
  if (!f) return;
  farm::FieldSeen seen{.field = *f, .workable = x.workable, .straw_kg_per_ha = x.straw_kg_per_ha};
  if (x.standing_cm) seen.standing_mm = 10.0 * *x.standing_cm;
  if (x.cover_percent) seen.cover = *x.cover_percent / 100.0;
  add(seen);
}

void Settling::settle(const BurnWord& x) {
  const auto f = field();
  if (!f || x.what != BurnWord::What::answered || entry_->done_on > problem_.as_of) return;
  problem_.farm.fields[*f].burn_answer = x.words;
}

void Settling::settle(const Water& x) {
  const auto f = field();
  if (!f) return;
  if (x.what == Water::What::metered) {
    add(farm::WaterMetered{*f, x.m3.value_or(0.0)});
    return;
  }
  farm::WaterTurned turned{.field = *f, .on = x.what == Water::What::on};
  if (x.depth_cm) turned.depth_mm = 10.0 * *x.depth_cm;
  add(turned);
}

void Settling::settle(const Bales& x) {
  const auto f = field();
  if (!f || !cut_by_then(*f)) return;
  bales_[*f].push_back({entry_, x.counted.value_or(0.0), x.hauled.value_or(0.0)});
  if (x.counted && !x.hauled) add(farm::BalesCounted{*f, *x.counted});  // one event for an entry
}

void Settling::settle(const Presence& x) {
  farm::Farm& farm = problem_.farm;
  const auto named = [&](auto& list) {
    return std::ranges::find_if(list, [&](const auto& one) { return one.id.value == x.who; });
  };
  const auto change = [&](auto& list) {
    const auto at = named(list);
    if (at == list.end()) return false;
    auto& away = at->away;
    const Date from = entry_->done_on;
    if (x.what == Presence::What::down) {
      const Date until = x.until.value_or(std::max(from, problem_.as_of) + (stays_down_days - 1));
      away.push_back({from, until});
    } else {  // from now on it is there
      for (machinery::DateRange& range : away)
        if (range.from <= from && from <= range.to) range.to = from - 1;
      std::erase_if(away, [](const machinery::DateRange& range) { return range.to < range.from; });
    }
    return true;
  };
  if (entry_->done_on > problem_.as_of) return;
  const bool known = change(farm.tractors) || change(farm.implements) || change(farm.operators);
  if (!known) say("who", x.who, "a machine or a person of the farm", "correct the entry");
  if (x.what == Presence::What::down) return;
  if (const auto at = named(farm.implements); at != farm.implements.end() && at->hire)
    add(farm::OutfitHere{static_cast<int>(at - farm.implements.begin())});
}

void Settling::settle(const Word& x) {
  const auto f = field();
  if (!f || entry_->done_on > problem_.as_of) return;
  farm::Field& field = problem_.farm.fields[*f];
  const auto known = std::ranges::any_of(problem_.farm.book.recipes,
                                         [&](const method::Recipe& r) { return r.id.value == x.method; });
  if (x.what == Word::What::too_wet) {
    add(farm::TooWet{*f, x.until.value_or(entry_->done_on + (too_wet_days - 1))});
  } else if (x.what == Word::What::free) {
    field.locked.reset();
    std::erase_if(field.not_allowed,
                  [](const farm::NotAllowed& n) { return n.why.starts_with("your word"); });
    std::erase_if(problem_.so_far.events, [&](const farm::Happened& h) {
      const auto* wet = std::get_if<farm::TooWet>(&h.what);
      return wet != nullptr && wet->field == *f && wet->until >= entry_->done_on;
    });
  } else if (!known) {
    say("method", x.method, "a method of the farm's book", "correct the entry");
  } else if (x.what == Word::What::method) {
    field.locked = MethodId{x.method};
  } else {
    field.not_allowed.push_back({MethodId{x.method}, x.why.empty() ? "your word" : "your word: " + x.why});
  }
}

}  // namespace aftercut::journal

#include "outfits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "roads.hpp"

namespace aftercut::audit {
namespace {

using machinery::DateRange;

std::string clock(int minutes) { return fmt::format("{:02d}:{:02d}", minutes / 60, minutes % 60); }

Place place_of(const Facts& facts, int year, const plan::Work& w, std::string what) {
  return {&facts.farm(), year, w.day, w.field, std::move(what)};
}

/// Minutes that a person works that day: own hours, no longer than the day is light.
int minutes_of(const Facts& facts, int person, int day) {
  const auto& o = facts.farm().operators[static_cast<std::size_t>(person)];
  const int own = static_cast<int>(std::lround(o.hours_per_day.value() * 60.0));
  return std::min(own, facts.daylight_min[static_cast<std::size_t>(day)]);
}

Findings check_machines(const Facts& facts, int year, const plan::Work& w) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const auto& op = farm.book.operations[static_cast<std::size_t>(w.operation)];
  const std::string fault = outfit_fault(farm, w.field, op, w.tractor, w.implement);
  f.expect(fault.empty(), "unfit outfit", place_of(facts, year, w, op.name), [&] {
    return Texts{fault, "an outfit that can " + op.name};
  });
  const Date date = farm.season.date(w.day);
  if (w.tractor != plan::none) {
    const auto& t = farm.tractors[static_cast<std::size_t>(w.tractor)];
    f.expect(!within(t.away, date), "machine away", place_of(facts, year, w, t.id.value), [] {
      return Texts{"away", "there"};
    });
  }
  if (w.implement != plan::none) {
    const auto& i = farm.implements[static_cast<std::size_t>(w.implement)];
    const bool comes = !i.hire || i.hire->windows.empty() || within(i.hire->windows, date);
    f.expect(comes && !within(i.away, date), "machine away", place_of(facts, year, w, i.id.value), [] {
      return Texts{"away or outside its windows", "there"};
    });
  }
  return f;
}

Findings check_person(const Facts& facts, int year, const plan::Work& w, int person) {
  Findings f;
  const auto& o = facts.farm().operators[static_cast<std::size_t>(person)];
  const auto& op = facts.farm().book.operations[static_cast<std::size_t>(w.operation)];
  const Date date = facts.farm().season.date(w.day);
  const Place place = place_of(facts, year, w, o.id.value);
  const bool skilled =
      op.skill.empty() || std::find(o.skills.begin(), o.skills.end(), op.skill) != o.skills.end();
  f.expect(skilled, "missing skill", place, [&] { return Texts{"no " + op.skill, op.skill}; });
  const bool off =
      std::find(o.weekdays_off.begin(), o.weekdays_off.end(), weekday(date)) != o.weekdays_off.end();
  f.expect(!off && !within(o.away, date), "person away", place, [] { return Texts{"day off", "at work"}; });
  const int until = facts.shift_start_min + minutes_of(facts, person, w.day);
  f.expect(w.end_min <= until, "shift too long", place, [&] {
    return Texts{"works until " + clock(w.end_min), "by " + clock(until)};
  });
  return f;
}

Findings check_crew(const Facts& facts, int year, const plan::Work& w) {
  Findings f;
  const farm::Farm& farm = facts.farm();
  const auto& op = farm.book.operations[static_cast<std::size_t>(w.operation)];
  const std::vector<int> crew = people_of(w);
  const std::set<int> different(crew.begin(), crew.end());
  const int wanted = brings_people(farm, w.implement) ? 0 : op.crew;
  f.expect(different.size() == crew.size() && static_cast<int>(crew.size()) == wanted,
           "crew of the wrong size", place_of(facts, year, w, op.name), [&] {
             return Texts{fmt::format("{} people", different.size()), fmt::format("{}", wanted)};
           });
  for (const int person : crew) f += check_person(facts, year, w, person);
  return f;
}

Findings check_hours(const Facts& facts, int year, const plan::Work& w) {
  Findings f;
  f.expect(
      w.start_min < w.end_min && w.start_min >= facts.shift_start_min, "outside the working day",
      place_of(facts, year, w, ""), [&] {
        return Texts{clock(w.start_min) + " to " + clock(w.end_min), "from " + clock(facts.shift_start_min)};
      });
  if (!brings_people(facts.farm(), w.implement)) return f;
  int longest = 0;
  for (int p = 0; p < static_cast<int>(facts.farm().operators.size()); ++p)
    longest = std::max(longest, minutes_of(facts, p, w.day));
  const int until = facts.shift_start_min + longest;
  f.expect(w.end_min <= until, "shift too long", place_of(facts, year, w, "hired outfit"), [&] {
    return Texts{"works until " + clock(w.end_min), "by " + clock(until)};
  });
  return f;
}

/// One machine's or person's stretches of a day in order of their start.
Findings check_chain(const Facts& facts, int year, std::vector<plan::Work> chain, const char* rule,
                     const std::string& who) {
  Findings f;
  std::sort(chain.begin(), chain.end(),
            [](const plan::Work& a, const plan::Work& b) { return a.start_min < b.start_min; });
  for (std::size_t k = 1; k < chain.size(); ++k) {
    const plan::Work& before = chain[k - 1];
    const plan::Work& w = chain[k];
    const Place place = place_of(facts, year, w, who);
    const bool apart = w.start_min >= before.end_min;
    f.expect(apart, rule, place, [&] {
      return Texts{"starts " + clock(w.start_min), "free from " + clock(before.end_min)};
    });
    if (!apart || w.field == before.field) continue;
    const int there = before.end_min + move_minutes(facts.farm(), before.field, w.field);
    f.expect(w.start_min >= there, "no time to move", place, [&] {
      return Texts{"starts " + clock(w.start_min), "there from " + clock(there)};
    });
  }
  return f;
}

template <class Uses>
std::vector<plan::Work> those(const std::vector<plan::Work>& day, const Uses& uses) {
  std::vector<plan::Work> some;
  for (const plan::Work& w : day)
    if (uses(w)) some.push_back(w);
  return some;
}

}  // namespace

bool within(const std::vector<DateRange>& ranges, Date d) {
  for (const DateRange& r : ranges)
    if (!(d < r.from) && !(r.to < d)) return true;
  return false;
}

std::vector<int> people_of(const plan::Work& work) {
  std::vector<int> people;
  for (const int p : work.crew)
    if (p != plan::none) people.push_back(p);
  return people;
}

bool brings_people(const farm::Farm& farm, int implement) {
  if (implement == plan::none) return false;
  const auto& hire = farm.implements[static_cast<std::size_t>(implement)].hire;
  return hire && hire->brings_operator;
}

Findings check_outfit(const Facts& facts, int year, const plan::Work& work) {
  Findings f = check_machines(facts, year, work);
  f += check_crew(facts, year, work);
  f += check_hours(facts, year, work);
  return f;
}

int minutes_at_work(const Facts& facts, int person, int day) {
  const auto& o = facts.farm().operators[static_cast<std::size_t>(person)];
  const Date date = facts.farm().season.date(day);
  const bool off =
      std::find(o.weekdays_off.begin(), o.weekdays_off.end(), weekday(date)) != o.weekdays_off.end();
  return off || within(o.away, date) ? 0 : minutes_of(facts, person, day);
}

Findings check_waiting_crew(const Facts& facts, int year, const plan::Work& w) {
  Findings f = check_crew(facts, year, w);
  f += check_hours(facts, year, w);
  int shortest = 24 * 60;
  for (const int person : people_of(w)) shortest = std::min(shortest, minutes_at_work(facts, person, w.day));
  const int end = facts.shift_start_min + shortest / 2;
  f.expect(w.start_min == facts.shift_start_min && w.end_min == end, "wrong wait",
           place_of(facts, year, w, "stand by"), [&] {
             return Texts{clock(w.start_min) + " to " + clock(w.end_min),
                          clock(facts.shift_start_min) + " to " + clock(end)};
           });
  return f;
}

Findings check_together(const Facts& facts, int year, const std::vector<plan::Work>& day) {
  Findings f;
  if (day.size() < 2) return f;
  const farm::Farm& farm = facts.farm();
  for (int t = 0; t < static_cast<int>(farm.tractors.size()); ++t)
    f += check_chain(facts, year, those(day, [t](const plan::Work& w) { return w.tractor == t; }),
                     "double-booked machine", farm.tractors[static_cast<std::size_t>(t)].id.value);
  for (int i = 0; i < static_cast<int>(farm.implements.size()); ++i)
    f += check_chain(facts, year, those(day, [i](const plan::Work& w) { return w.implement == i; }),
                     "double-booked machine", farm.implements[static_cast<std::size_t>(i)].id.value);
  const auto has = [](const plan::Work& w, int p) {
    return std::find(w.crew.begin(), w.crew.end(), p) != w.crew.end();
  };
  for (int p = 0; p < static_cast<int>(farm.operators.size()); ++p)
    f += check_chain(facts, year, those(day, [&](const plan::Work& w) { return has(w, p); }),
                     "double-booked person", farm.operators[static_cast<std::size_t>(p)].id.value);
  std::set<int> seen;
  for (const plan::Work& w : day)
    f.expect(seen.insert(w.field).second, "two outfits on a field", place_of(facts, year, w, ""), [] {
      return Texts{"a second stretch", "one a day"};
    });
  return f;
}

}  // namespace aftercut::audit

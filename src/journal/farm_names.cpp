// What the farm calls its things, and what it has to say against an entry.
#include <fmt/format.h>

#include <algorithm>

#include "aftercut/farm/fault_words.hpp"
#include "aftercut/journal/form.hpp"

namespace aftercut::journal {
namespace {

constexpr double area_slack_ha = 0.005;  // of areas written with two digits

/// What is wrong with one entry on a farm.
class Holding {
 public:
  Holding(const farm::Farm& farm, const Entry& entry) : farm_{farm}, names_{names_of(farm)}, entry_{entry} {}

  Issues faults(Date today) {
    if (entry_.field) name("field", entry_.field->value, names_.fields);
    days(today);
    if (const auto* w = std::get_if<Worked>(&entry_.what)) work(*w);
    if (const auto* p = std::get_if<Presence>(&entry_.what)) {
      machine_or_person("who", p->who);
      until(p->until);
    }
    if (const auto* w = std::get_if<Word>(&entry_.what)) {
      if (!w->method.empty()) name("method", w->method, names_.methods);
      until(w->until);
    }
    return std::move(issues_);
  }

 private:
  void fault(const std::string& place, const std::string& found, const std::string& expected,
             const std::string& fix) {
    issues_.push_back({"command line", place, found, expected, fix});
  }
  void name(const std::string& place, const std::string& word, const std::vector<std::string>& known) {
    if (std::ranges::find(known, word) != known.end()) return;
    fault(place, farm::in_quotes(word), fmt::format("a {} of the farm", place),
          farm::did_you_mean(word, known, "one of " + farm::listed(known)));
  }
  void machine_or_person(const std::string& place, const std::string& word) {
    std::vector<std::string> known = names_.machines;
    known.insert(known.end(), names_.people.begin(), names_.people.end());
    if (std::ranges::find(known, word) != known.end()) return;
    fault(place, farm::in_quotes(word), "a machine or a person of the farm",
          farm::did_you_mean(word, known, "one of " + farm::listed(known)));
  }
  void days(Date today) {
    const Date first = farm_.season.first, last = first + (farm_.season.days - 1);
    if (std::holds_alternative<TakenBack>(entry_.what)) return;
    if (entry_.done_on < first || entry_.done_on > last)
      fault("--on", iso(entry_.done_on), fmt::format("a day of the season, {} to {}", iso(first), iso(last)),
            "write the day on which it was done, year-month-day");
    else if (entry_.done_on > today)
      fault("--on", iso(entry_.done_on), fmt::format("today, {}, or a day before", iso(today)),
            "record it once it is done");
  }
  void until(const std::optional<Date>& day) {
    if (day && *day < entry_.done_on)
      fault("until", iso(*day), fmt::format("{} or later", iso(entry_.done_on)), "write the last day of it");
  }
  void work(const Worked& w) {
    name("operation", w.operation, names_.operations);
    for (const std::string& who : w.with) machine_or_person("--with", who);
    if (!entry_.field || !w.area_ha) return;
    const auto field = std::ranges::find(farm_.fields, *entry_.field, &farm::Field::id);
    if (field != farm_.fields.end() && *w.area_ha > field->area.value() + area_slack_ha)
      fault("area", fmt::format("{:.2f} ha", *w.area_ha),
            fmt::format("at most the field's {:.2f} ha", field->area.value()),
            "write the area done on that day, or finished");
  }

  const farm::Farm& farm_;
  Names names_;
  const Entry& entry_;
  Issues issues_;
};

}  // namespace

Names names_of(const farm::Farm& farm) {
  Names n;
  for (const auto& f : farm.fields) n.fields.push_back(f.id.value);
  for (const auto& o : farm.book.operations) {
    n.operations.push_back(o.id.value);
    if (o.burning && n.burning.empty()) n.burning = o.id.value;
    if (o.water == method::Water::boards_in && n.boards_in.empty()) n.boards_in = o.id.value;
    if (o.water == method::Water::boards_out && n.boards_out.empty()) n.boards_out = o.id.value;
  }
  for (const auto& r : farm.book.recipes) n.methods.push_back(r.id.value);
  for (const auto& t : farm.tractors) n.machines.push_back(t.id.value);
  for (const auto& i : farm.implements) n.machines.push_back(i.id.value);
  for (const auto& o : farm.operators) n.people.push_back(o.id.value);
  return n;
}

Issues faults_on(const farm::Farm& farm, const Entry& entry, Date today) {
  return Holding{farm, entry}.faults(today);
}

}  // namespace aftercut::journal

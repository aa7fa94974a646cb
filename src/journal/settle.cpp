#include "aftercut/journal/settle.hpp"

#include <algorithm>

#include "aftercut/farm/fault_words.hpp"
#include "aftercut/journal/doubts.hpp"
#include "settling.hpp"

namespace aftercut::journal {
namespace {

template <class List>
std::vector<std::string> ids_of(const List& list) {
  std::vector<std::string> ids;
  for (const auto& one : list) ids.push_back(one.id.value);
  return ids;
}

template <class List>
std::optional<std::size_t> index_of(const List& list, const std::string& id) {
  const auto at = std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.id.value == id; });
  return at == list.end() ? std::nullopt : std::optional{static_cast<std::size_t>(at - list.begin())};
}

/// Something was done or seen on the ground, so that the weather so far is asked for.
bool asks_for_weather(const farm::Happened& h) {
  return !std::holds_alternative<farm::TooWet>(h.what) && !std::holds_alternative<farm::OutfitHere>(h.what) &&
         !std::holds_alternative<farm::BalesCounted>(h.what);
}

}  // namespace

Settling::Settling(farm::Problem problem, std::string file, const std::vector<Entry>& standing)
    : problem_{std::move(problem)}, file_{std::move(file)}, bales_(problem_.farm.fields.size()) {
  for (const Entry& e : standing) put(e);
  haul_bales();
  std::ranges::stable_sort(faults_, {}, &EntryFault::seq);
}

void Settling::say(const std::string& place_in_entry, std::string found, std::string expected,
                   std::string fix) {
  faults_.push_back({entry_->seq,
                     {file_, fmt::format("entry {}: {}", entry_->seq, place_in_entry), std::move(found),
                      std::move(expected), std::move(fix)}});
}

void Settling::add(decltype(farm::Happened::what) what) {
  problem_.so_far.events.push_back({entry_->seq, entry_->done_on, std::move(what)});
}

std::optional<std::size_t> Settling::field() {
  if (!entry_->field) {
    say("field", "none", "the field that it was on", "correct the entry and name its field");
    return std::nullopt;
  }
  const auto at = index_of(problem_.farm.fields, entry_->field->value);
  if (!at)
    say("field", entry_->field->value, "one of " + farm::listed(ids_of(problem_.farm.fields)),
        "correct the entry, or bring the field back into the farm");
  return at;
}

std::optional<int> Settling::operation(const std::string& id) {
  const auto at = index_of(problem_.farm.book.operations, id);
  if (at) return static_cast<int>(*at);
  say("operation", id, "one of " + farm::listed(ids_of(problem_.farm.book.operations)), "correct the entry");
  return std::nullopt;
}

bool Settling::cut_by_then(std::size_t f) {
  const farm::Field& field = problem_.farm.fields[f];
  if (field.cut && field.harvest < entry_->done_on) return true;
  say("done_on", iso(entry_->done_on),
      field.cut ? "a day after its harvest on " + iso(field.harvest) : "a field that has been cut",
      fmt::format("record the harvest of {} first, or correct the day", field.id.value));
  return false;
}

bool Settling::put_with(const std::vector<std::string>& ids, const method::Operation& op,
                        farm::WorkDone& work) {
  const farm::Farm& farm = problem_.farm;
  bool good = true;
  for (const std::string& id : ids) {
    if (const auto t = index_of(farm.tractors, id)) {
      work.tractor = static_cast<int>(*t);
    } else if (const auto i = index_of(farm.implements, id)) {
      work.implement = static_cast<int>(*i);
      if (farm.implements[*i].kind == op.implement) continue;
      say("with", id, fmt::format("a machine of kind {}", op.implement), "correct the entry");
      good = false;
    } else if (const auto p = index_of(farm.operators, id)) {
      work.crew.push_back(static_cast<int>(*p));
    } else {
      say("with", id,
          "one of " + farm::listed(ids_of(farm.tractors)) + ", " + farm::listed(ids_of(farm.implements)) +
              ", " + farm::listed(ids_of(farm.operators)),
          "correct the entry");
      good = false;
    }
  }
  return good;
}

void Settling::still_standing() {
  if (problem_.so_far.entries == 0) return;
  for (farm::Field& f : problem_.farm.fields) {
    if (f.cut || f.harvest >= problem_.as_of) continue;
    problem_.farm.notes.push_back(
        fmt::format("{}: expected to be cut on {}, but the journal has no harvest: planned as if it were cut "
                    "on {}",
                    f.id.value, iso(f.harvest), iso(problem_.as_of)));
    f.harvest = problem_.as_of;
  }
}

Issues Settling::weather() {
  auto& events = problem_.so_far.events;
  const farm::Calendar& season = problem_.farm.season;
  const int until = season.day(problem_.as_of);
  const int seen = problem_.seen ? static_cast<int>(problem_.seen->days.size()) : 0;
  if (std::ranges::any_of(events, asks_for_weather) && seen < until) {
    return {{"farm.json", "weather_so_far",
             seen == 0 ? "no day of this season" : "days until " + iso(season.date(seen - 1)),
             fmt::format("every day from {} to {}", iso(season.first), iso(problem_.as_of - 1)),
             "add the missing days to the file of weather_so_far (docs/farm-folder.md)"}};
  }
  for (farm::Happened& h : events) {
    auto* rain = std::get_if<farm::RainCaught>(&h.what);
    if (rain == nullptr || problem_.years.years.empty()) continue;
    const auto d = static_cast<std::size_t>(season.day(h.day));
    rain->record_mm = problem_.seen->days[d].rain_mm;
  }
  for (const farm::Happened& h : events) {
    const auto* rain = std::get_if<farm::RainCaught>(&h.what);
    if (rain == nullptr || rain->field) continue;
    const auto d = static_cast<std::size_t>(season.day(h.day));
    problem_.seen->days[d].rain_mm = rain->mm;
    for (weather::Year& year : problem_.years.years) year.days[d].rain_mm = rain->mm;
  }
  return {};
}

void Settling::put_in_order() {
  auto& events = problem_.so_far.events;
  std::ranges::stable_sort(events, {}, [](const farm::Happened& h) { return std::pair{h.day, h.seq}; });
  std::erase_if(events, [&](const farm::Happened& h) {
    const bool looks_ahead = std::holds_alternative<farm::FieldSeen>(h.what) ||
                             std::holds_alternative<farm::TooWet>(h.what) ||
                             std::holds_alternative<farm::OutfitHere>(h.what);
    return looks_ahead ? h.day > problem_.as_of : h.day >= problem_.as_of;
  });
}

farm::Problem Settling::as_put() && {
  put_in_order();
  return std::move(problem_);
}

Result<farm::Problem> Settling::result() && {
  still_standing();
  put_in_order();
  Issues issues;
  for (const EntryFault& f : faults_) issues.push_back(f.issue);
  if (issues.empty()) issues = weather();
  if (!issues.empty()) return issues;
  std::ranges::sort(problem_.farm.notes, natural_less);
  return std::move(problem_);
}

void Settling::put(const Entry& entry) {
  entry_ = &entry;
  ++problem_.so_far.entries;
  const farm::Calendar& season = problem_.farm.season;
  if (entry.done_on < season.first || entry.done_on > season.date(season.days - 1)) {
    say("done_on", iso(entry.done_on),
        fmt::format("a day of the season, {} to {}", iso(season.first), iso(season.date(season.days - 1))),
        "correct the entry; entries of another season belong into its own folder");
    return;
  }
  std::visit([this](const auto& what) { settle(what); }, entry.what);
}

Result<farm::Problem> put_in(farm::Problem problem, const std::vector<Entry>& standing,
                             const std::string& file) {
  if (standing.empty()) return problem;
  return Settling{std::move(problem), file, standing}.result();
}

std::vector<farm::Doubt> doubts_in(farm::Problem problem, const std::vector<Entry>& standing) {
  return doubts_of(Settling{std::move(problem), {}, standing}.as_put());
}

std::vector<EntryFault> faults_in(farm::Problem problem, const std::vector<Entry>& standing,
                                  const std::string& file) {
  return Settling{std::move(problem), file, standing}.faults();
}

}  // namespace aftercut::journal

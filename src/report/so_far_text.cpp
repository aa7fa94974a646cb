// The season so far, for the terminal.

#include <algorithm>
#include <cmath>

#include "aftercut/journal/doubts.hpp"
#include "so_far.hpp"

namespace aftercut::report {
namespace {

std::string times_words(int n) { return n == 1 ? "once" : n == 2 ? "twice" : fmt::format("{} times", n); }

std::string done_words(const farm::Farm& farm, const journal::FieldState& s, double field_ha) {
  std::string out;
  const auto add = [&](const std::string& word) { out += (out.empty() ? "" : ", ") + word; };
  const auto name = [&](int operation) {
    return farm.book.operations[static_cast<std::size_t>(operation)].name;
  };
  for (const journal::Stage& stage : s.done)
    add(stage.passes > 1    ? name(stage.operation) + " " + times_words(stage.passes)
        : stage.passes == 0 ? name(stage.operation) + ", no more of it"
                            : name(stage.operation));
  for (const auto& r : {s.running, s.baling_waits, s.behind_baler})
    if (r)
      add(fmt::format("{} {:.1f} {} begun", name(r->operation), r->area_ha * units_of(farm).area_per_ha,
                      units_of(farm).area));
  if (journal::bales_lying(farm, s, field_ha) > 0.0) add("bales on the field");
  return out;
}

/// How far off the model was, over all sights of a kind.
std::string off_words(const journal::State& state) {
  int ground = 0, ground_wrong = 0, straw = 0;
  double off = 0.0;
  for (const journal::Difference& d : state.differences) {
    if (d.what == journal::Seen::workable) {
      ++ground;
      ground_wrong += d.model != d.seen ? 1 : 0;
    }
    if ((d.what == journal::Seen::cover || d.what == journal::Seen::straw_on_top) && d.seen > 0.0) {
      ++straw;
      off += std::abs(d.model / d.seen - 1.0);
    }
  }
  std::string out;
  if (ground > 0)
    out += fmt::format("ground looked at {}, the model had it wrong {}", times_words(ground),
                       ground_wrong == 0 ? "never" : times_words(ground_wrong));
  if (straw > 0)
    out += fmt::format("{}straw counted {}, the model off by {:.0f} % in the mean", out.empty() ? "" : "; ",
                       times_words(straw), 100.0 * off / straw);
  return out;
}

}  // namespace

std::string method_name(const farm::Farm& farm, const std::string& id) {
  for (const method::Recipe& r : farm.book.recipes)
    if (r.id.value == id) return r.name;
  return "no method";
}

std::string so_far_text(const farm::Problem& problem) {
  const auto state = journal::state_of(problem);
  if (!state) return "";
  const farm::Farm& farm = problem.farm;
  std::string out = fmt::format("So far, by {} entries of the journal\n", problem.so_far.entries);
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const std::string done = done_words(farm, state->fields[f], farm.fields[f].area.value());
    if (!done.empty())
      out += wrapped(fmt::format("  {}: {}", farm.fields[f].id.value, done), terminal_width, 4) + "\n";
  }
  for (const farm::Happened& h : problem.so_far.events)
    if (const auto* wet = std::get_if<farm::TooWet>(&h.what); wet && wet->until >= problem.as_of)
      out += fmt::format("  {}: called too wet until {}\n", farm.fields[wet->field].id.value,
                         short_date(wet->until));
  for (const farm::Doubt& d : journal::doubts_of(problem))
    out += wrapped("  ? " + journal::doubt_words(farm, d), terminal_width, 4) + "\n";
  const std::string off = off_words(*state);
  if (!off.empty()) out += wrapped("  " + off, terminal_width, 4) + "\n";
  return out;
}

}  // namespace aftercut::report

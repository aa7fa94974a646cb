// Why a burn did not come, in words: the largest count first, and never a cause that was not counted.
#include "aftercut/scenario/not_burned.hpp"

#include "aftercut/scenario/base_plan.hpp"
#include "catch2/catch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// The note on the fall-back of field 5's burn.
std::string note_of(const farm::Problem& p) {
  const auto planned = scenario::make_plan(p, {.seed = 5, .threads = 1, .evaluations = 1, .progress = {}});
  for (const plan::MethodOutcome& m : planned.plan.fields[4].methods)
    if (p.farm.book.recipes[static_cast<std::size_t>(m.method)].id.value == "burn")
      for (const std::string& note : m.notes)
        if (holds(note, "goes over to")) return note;
  return "";
}

farm::Problem burning() {
  farm::Problem p = small_problem();
  for (auto& f : p.farm.fields) f.locked = MethodId{"leave"};
  p.farm.fields[4].locked = MethodId{"burn"};
  return p;
}

void put(farm::Problem& p, const std::string& name, const char* value, const char* unit) {
  for (burn::Rule& rule : p.farm.burning->rules)
    if (rule.name == name) {
      rule.value = value;
      rule.unit = unit;
    }
}

}  // namespace

TEST_CASE("the largest count is named first, and causes without a day not at all", "[identity]") {
  CHECK(
      scenario::not_burned_words({.not_called = 12, .too_wet = 20, .no_room = 9}, 1) ==
      "of 41 days of the window in that year: 20 too wet, 12 not called by the authority, 9 without people, "
      "hours or burn area left");
  CHECK(
      scenario::not_burned_words({.not_called = 300, .out_of_limits = 110}, 10) ==
      "of 410 days of the window in those years (41 a year): 300 not called by the authority, 110 with wind, "
      "humidity or warmth outside the limits");
  CHECK(scenario::not_burned_words({}, 3) == "no day came on which the burn was due and the calendar open");
}

TEST_CASE("a method's note tells the true cause", "[identity]") {
  farm::Problem never_called = burning();
  never_called.farm.burning->burn_day_chance = 0.0;
  const std::string uncalled = note_of(never_called);
  INFO(uncalled);
  CHECK(holds(uncalled, "not burned in 4 of 4 years: goes over to chop_disk by 2026-11-10; of "));
  CHECK(holds(uncalled, " not called by the authority"));
  CHECK_FALSE(holds(uncalled, "wet"));
  farm::Problem never_dry = burning();
  never_dry.farm.burning->burn_day_chance = 1.0;
  put(never_dry, "dry_days_spread", "300", "days");
  put(never_dry, "dry_days_windrow", "300", "days");
  const std::string wet = note_of(never_dry);
  INFO(wet);
  CHECK(holds(wet, " too wet"));
  CHECK_FALSE(holds(wet, "called"));
}

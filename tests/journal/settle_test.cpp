// Entries put into a farm: what each kind comes to, and every fault at once.

#include "aftercut/journal/settle.hpp"

#include "aftercut/journal/state.hpp"
#include "catch2/catch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::journal;

namespace {

/// The small farm on 1 November, with the weather of its first year so far.
farm::Problem in_season() {
  farm::Problem p = test::small_problem(2);
  p.as_of = make_date(2026, 11, 1);
  const int until = p.farm.season.day(p.as_of);
  const weather::Year& seen = p.years.years.front();
  p.seen = weather::Series{p.farm.season.first, {seen.days.begin(), seen.days.begin() + until}, {}};
  for (weather::Year& y : p.years.years) {
    std::copy_n(seen.days.begin(), until, y.days.begin());
    std::copy_n(seen.et0_mm.begin(), until, y.et0_mm.begin());
  }
  return p;
}

Entry entry(int seq, Date day, const char* field, What what) {
  Entry e{.seq = seq,
          .id = std::to_string(seq),
          .done_on = day,
          .recorded_at = iso(day) + "T18:00:00Z",
          .by = "ana"};
  if (*field != '\0') e.field = FieldId{field};
  e.what = std::move(what);
  return e;
}

farm::Problem put(std::vector<Entry> entries) {
  auto result = put_in(in_season(), entries, "journal.jsonl");
  for (const Issue& i : result.issues()) FAIL(to_text(i));
  return std::move(result).value();
}

const farm::Field& field_of(const farm::Problem& p, const char* id) {
  return *std::ranges::find_if(p.farm.fields, [&](const farm::Field& f) { return f.id.value == id; });
}

}  // namespace

TEST_CASE("no entries leave the problem as it was", "[identity]") {
  const farm::Problem p = in_season();
  const auto same = put_in(p, {}, "journal.jsonl");
  REQUIRE(same.ok());
  CHECK(same.value().so_far.empty());
  CHECK(field_of(same.value(), "1").harvest == make_date(2026, 9, 16));
}

TEST_CASE("a harvest is a fact: day, lay, height, and straw by the yield", "[identity]") {
  farm::Problem before = in_season();
  const farm::Problem p =
      put({entry(1, make_date(2026, 9, 19), "1",
                 Harvested{.yield_kg_per_ha = 9000.0, .lay = "windrow", .cut_height_cm = 22.0})});
  const farm::Field& f = field_of(p, "1");
  CHECK(f.cut);
  CHECK(f.harvest == make_date(2026, 9, 19));
  CHECK(f.lay == straw::Lay::windrow);
  CHECK(f.cut_height_cm == 22.0);
  CHECK(f.straw_load == field_of(before, "1").straw_load);  // the small farm's loads were entered
  farm::Problem yields = in_season();
  yields.farm.fields[0].grain = KgPerHa{8000.0};
  const auto more =
      put_in(yields, {entry(1, make_date(2026, 9, 19), "1", Harvested{.yield_kg_per_ha = 10000.0})}, "j");
  REQUIRE(more.ok());
  CHECK(field_of(more.value(), "1").straw_load.value() == Approx(1.25 * 7600.0));
  CHECK(field_of(more.value(), "1").grain->value() == 10000.0);
}

TEST_CASE("a field that should be cut and is not is planned as still standing", "[identity]") {
  const farm::Problem p = put({entry(1, make_date(2026, 10, 1), "", Rain{12.0})});
  CHECK(field_of(p, "1").harvest == p.as_of);
  CHECK_FALSE(field_of(p, "1").cut);
  CHECK(field_of(p, "2").harvest == make_date(2026, 9, 5));  // cut
  CHECK(std::ranges::any_of(
      p.farm.notes, [](const std::string& n) { return n.find("has no harvest") != std::string::npos; }));
}

TEST_CASE("a gauge replaces the record's rain in every year, a field's own only there", "[identity]") {
  const Date day = make_date(2026, 10, 8);
  const farm::Problem p = put({entry(1, day, "", Rain{31.0}), entry(2, day + 1, "2", Rain{7.0})});
  const auto d = static_cast<std::size_t>(p.farm.season.day(day));
  for (const weather::Year& y : p.years.years) CHECK(y.days[d].rain_mm == 31.0);
  CHECK(p.seen->days[d].rain_mm == 31.0);
  CHECK(p.years.years[1].days[d + 1].rain_mm == in_season().years.years[1].days[d + 1].rain_mm);
  const auto state = state_of(p);
  REQUIRE(state);
  REQUIRE(state->differences.size() == 2);
  CHECK(state->differences[0].model == in_season().years.years[0].days[d].rain_mm);
  CHECK(state->differences[0].seen == 31.0);
  CHECK_FALSE(state->differences[0].field);
  CHECK(state->differences[1].field == 1u);
}

TEST_CASE("the owner's word: methods, wet fields, and taking it back", "[identity]") {
  const Date day = make_date(2026, 10, 28);
  const auto word = [](Word::What what, const char* method) {
    return Word{.what = what, .method = method, .why = "the landlord asks"};
  };
  const farm::Problem said = put({entry(1, day, "5", word(Word::What::method, "leave")),
                                  entry(2, day, "2", word(Word::What::not_method, "bale")),
                                  entry(3, day, "2", Word{.what = Word::What::too_wet})});
  CHECK(field_of(said, "5").locked == MethodId{"leave"});
  REQUIRE(field_of(said, "2").not_allowed.size() == 1);
  CHECK(field_of(said, "2").not_allowed[0].why == "your word: the landlord asks");
  REQUIRE(said.so_far.events.size() == 1);
  CHECK(std::get<farm::TooWet>(said.so_far.events[0].what).until == day + 6);
  const farm::Problem free = put({entry(1, day, "5", word(Word::What::method, "leave")),
                                  entry(2, day, "2", word(Word::What::not_method, "bale")),
                                  entry(3, day, "2", Word{.what = Word::What::too_wet}),
                                  entry(4, day + 1, "2", Word{.what = Word::What::free}),
                                  entry(5, day + 1, "5", Word{.what = Word::What::free})});
  CHECK_FALSE(field_of(free, "5").locked);
  CHECK(field_of(free, "2").not_allowed.empty());
  CHECK(free.so_far.events.empty());
}

TEST_CASE("machines and people away and back", "[identity]") {
  const Date day = make_date(2026, 10, 20);
  const auto away = [](const farm::Problem& p) {
    return std::ranges::find_if(p.farm.implements, [](const auto& i) { return i.id.value == "disk"; })->away;
  };
  const std::size_t own = away(in_season()).size();
  const farm::Problem down = put({entry(1, day, "", Presence{Presence::What::down, "disk", {}})});
  REQUIRE(away(down).size() == own + 1);
  CHECK(away(down).back().from == day);
  CHECK(away(down).back().to == down.as_of + 6);  // nobody has said how long
  const farm::Problem back = put({entry(1, day, "", Presence{Presence::What::down, "disk", {}}),
                                  entry(2, day + 3, "", Presence{Presence::What::up, "disk", {}})});
  CHECK(away(back).back().to == day + 2);
  const farm::Problem here = put({entry(1, day, "", Presence{Presence::What::here, "baler", {}})});
  REQUIRE(here.so_far.events.size() == 1);
  CHECK(state_of(here)->implements[1].here);
}

TEST_CASE("bales leave as they were counted", "[identity]") {
  const Date day = make_date(2026, 10, 10);
  const farm::Problem p =
      put({entry(1, day, "2", Worked{.operation = "bale", .finished = true}),
           entry(2, day + 1, "2", Bales{.counted = 200.0}), entry(3, day + 2, "2", Bales{.hauled = 50.0})});
  const auto state = state_of(p);
  REQUIRE(state->fields[1].running);
  CHECK(state->fields[1].running->area_ha == Approx(3.0));  // a quarter of 12 ha
  CHECK(state->fields[1].bales_lie == 1.0);
  const farm::Problem all =
      put({entry(1, day, "2", Worked{.operation = "bale", .finished = true}),
           entry(2, day + 1, "2", Bales{.counted = 200.0}), entry(3, day + 2, "2", Bales{.hauled = 150.0}),
           entry(4, day + 3, "2", Bales{.hauled = 50.0})});
  CHECK(state_of(all)->fields[1].bales_lie == 0.0);
  const farm::Problem three_quarters =
      put({entry(1, day, "2", Worked{.operation = "bale", .finished = true}),
           entry(2, day + 1, "2", Bales{.counted = 100.0}), entry(3, day + 2, "2", Bales{.hauled = 50.0}),
           entry(4, day + 3, "2", Bales{.counted = 100.0}), entry(5, day + 4, "2", Bales{.hauled = 100.0})});
  const auto some = state_of(three_quarters);
  REQUIRE(some->fields[1].running);
  CHECK(some->fields[1].running->area_ha == Approx(9.0));
  CHECK(some->fields[1].bales_lie == 1.0);
}

TEST_CASE("each entry is one event, bales counted and hauled in one too", "[identity]") {
  const Date day = make_date(2026, 10, 10);
  const farm::Problem p = put({entry(1, day, "2", Worked{.operation = "bale", .finished = true}),
                               entry(2, day + 1, "2", Bales{.counted = 200.0, .hauled = 50.0}),
                               entry(3, day + 2, "2", Bales{.counted = 20.0})});
  std::vector<int> seqs;
  for (const farm::Happened& h : p.so_far.events) seqs.push_back(h.seq);
  CHECK(seqs == std::vector{1, 2, 3});
  CHECK(state_of(p)->fields[1].running->area_ha == Approx(3.0));
}

TEST_CASE("every fault of a journal at once, each with its entry", "[identity]") {
  const Date day = make_date(2026, 10, 10);
  const auto result =
      put_in(in_season(),
             {entry(1, day, "9", Rain{3.0}), entry(2, day, "2", Worked{.operation = "dsik"}),
              entry(3, day, "1", Worked{.operation = "disk", .finished = true}),
              entry(4, make_date(2026, 9, 4), "2", Worked{.operation = "disk", .finished = true}),
              entry(5, day, "2", Worked{.operation = "disk", .finished = true, .with = {"torch"}}),
              entry(6, day, "2", Bales{.hauled = 5.0}), entry(7, day, "", Looked{.workable = true}),
              entry(8, day, "", Presence{Presence::What::down, "hovercraft", {}}),
              entry(9, day, "2", Word{.what = Word::What::method, .method = "pray"}),
              entry(10, make_date(2025, 10, 1), "", Rain{1.0})},
             "journal.jsonl");
  REQUIRE_FALSE(result.ok());
  const Issues issues = result.issues();
  REQUIRE(issues.size() == 10);
  for (std::size_t k = 0; k < issues.size(); ++k) {
    CHECK(issues[k].file == "journal.jsonl");
    CHECK(issues[k].place.starts_with("entry " + std::to_string(k + 1) + ":"));
    CHECK_FALSE(issues[k].found.empty());
    CHECK_FALSE(issues[k].fix.empty());
  }
}

TEST_CASE("work asks for the weather so far, day by day", "[identity]") {
  farm::Problem p = in_season();
  p.seen->days.resize(40);
  const auto result =
      put_in(p, {entry(1, make_date(2026, 10, 20), "2", Worked{.operation = "disk", .finished = true})}, "j");
  REQUIRE_FALSE(result.ok());
  CHECK(result.issues().front().place == "weather_so_far");
  CHECK(result.issues().front().found == "days until 2026-10-10");
  CHECK(put_in(p, {entry(1, make_date(2026, 10, 20), "2", Word{.what = Word::What::too_wet})}, "j").ok());
}

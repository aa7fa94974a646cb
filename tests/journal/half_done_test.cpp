// Half-done fields: parts that come to the whole, and bales that are hauled while the field is being baled.

#include <fmt/format.h>

#include "aftercut/journal/state.hpp"
#include "autumn_entries.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::journal;
using namespace aftercut::test;

namespace {

constexpr std::size_t field_2 = 1;  // of 12 ha

std::string operation_name(const farm::Problem& p, int operation) {
  return p.farm.book.operations[static_cast<std::size_t>(operation)].id.value;
}

/// "bale x1, haul 2 ha of them behind", as a row of the table below writes it.
std::string words_of(const farm::Problem& p, const FieldState& f) {
  std::string out;
  for (const Stage& s : f.done) out += fmt::format("{} x{}, ", operation_name(p, s.operation), s.passes);
  if (f.running) out += fmt::format("{} {:g}", operation_name(p, f.running->operation), f.running->area_ha);
  if (f.baling_waits) out += fmt::format(", waits bale {:g}", f.baling_waits->area_ha);
  if (f.behind_baler)
    out += fmt::format(" behind it {} {:g}", operation_name(p, f.behind_baler->operation),
                       f.behind_baler->area_ha);
  return out;
}

}  // namespace

TEST_CASE("bales are hauled while the field is being baled, and neither breaks the other off", "[identity]") {
  struct Row {
    std::vector<What> said;
    const char* state;
    double lying_ha;
  };
  const What baled_5 = part_of_pass("bale", 5.0), hauled_2 = part_of_pass("haul", 2.0),
             raked_4 = part_of_pass("rake", 4.0);
  const Worked no_more{.operation = "bale", .area_ha = 5.0, .no_more = true};
  const std::vector<Row> rows{
      {{baled_5}, "bale 5", 5.0},
      {{baled_5, hauled_2}, "bale 5 behind it haul 2", 3.0},
      {{baled_5, hauled_2, part_of_pass("bale", 4.0)}, "bale 9 behind it haul 2", 7.0},
      {{baled_5, hauled_2, whole_pass("bale")}, "bale x1, haul 2", 10.0},
      {{baled_5, hauled_2, whole_pass("bale"), whole_pass("haul")}, "bale x1, haul x1, ", 0.0},
      {{baled_5, whole_pass("haul")}, "bale 5 behind it haul 5", 0.0},
      {{baled_5, whole_pass("haul"), whole_pass("bale")}, "bale x1, haul 5", 7.0},
      {{baled_5, part_of_pass("haul", 8.0)}, "bale 8 behind it haul 8", 0.0},  // so much was baled
      {{no_more, hauled_2}, "bale x0, haul 2", 3.0},
      {{baled_5, hauled_2, no_more}, "bale x0, haul 2", 8.0},
      {{no_more, whole_pass("haul")}, "bale x0, haul x1, ", 0.0},
      {{baled_5, hauled_2, raked_4}, "rake 4, waits bale 5 behind it haul 2", 3.0},
      {{baled_5, raked_4, hauled_2}, "rake 4, waits bale 5 behind it haul 2", 3.0},
      {{baled_5, hauled_2, part_of_pass("rake", 7.0)}, "rake x1, bale 5 behind it haul 2", 3.0},
      {{baled_5, hauled_2, raked_4, part_of_pass("bale", 6.0)}, "bale 11 behind it haul 2", 9.0},
      {{baled_5, hauled_2, raked_4, whole_pass("bale"), hauled_2}, "bale x1, haul 4", 8.0},
      {{baled_5, hauled_2, raked_4, part_of_pass("disk", 6.0)}, "disk 6", 3.0},
      {{baled_5, part_of_pass("haul", 5.0), part_of_pass("bale", 7.0), part_of_pass("haul", 7.0)},
       "bale x1, haul x1, ",
       0.0}};
  for (const Row& row : rows) {
    std::vector<WrittenOn> said;
    for (const What& what : row.said) said.push_back({"2", what});
    const farm::Problem p = put_written(said);
    const FieldState f = state_of(p)->fields[field_2];
    INFO(row.state);
    CHECK(words_of(p, f) == row.state);
    CHECK(12.0 * bales_lying(p.farm, f, 12.0) == Approx(row.lying_ha).margin(1e-9));
  }
}

TEST_CASE("bales hauled off a field that is baled in part are so much of that part", "[identity]") {
  const Date day = make_date(2026, 10, 1);
  const std::vector<WrittenOn> in_turn{{"2", part_of_pass("bale", 6.0), day},
                                       {"2", Bales{.counted = 60.0}, day + 1},
                                       {"2", Bales{.hauled = 30.0}, day + 2}};
  const std::vector<WrittenOn> baling_last{in_turn[1], in_turn[2], in_turn[0]};
  for (const auto& said : {in_turn, baling_last}) {
    const farm::Problem p = put_written(said);
    CHECK(words_of(p, state_of(p)->fields[field_2]) == "bale 6 behind it haul 3");
  }
  std::vector<WrittenOn> all = in_turn;
  all.push_back({"2", whole_pass("bale"), day + 3});
  all.push_back({"2", Bales{.counted = 60.0}, day + 3});
  all.push_back({"2", Bales{.hauled = 60.0}, day + 4});
  const farm::Problem p = put_written(all);
  CHECK(words_of(p, state_of(p)->fields[field_2]) == "bale x1, haul 9");  // 90 of 120 bales
  const farm::Problem uncounted_area = put_written({in_turn[1], in_turn[2]});
  CHECK(words_of(uncounted_area, state_of(uncounted_area)->fields[field_2]) == "haul 6");
}

TEST_CASE("parts that come to the whole field are a pass, though nobody wrote that it was finished",
          "[identity]") {
  const auto parts = [](double second_ha) {
    return put_written({{"3", part_of_pass("chop", 10.0)}, {"3", part_of_pass("chop", second_ha)}});
  };
  for (const double second_ha : {5.85, 6.0, 6.5}) {  // of 16 ha: a strip short, all, more
    const FieldState f = state_of(parts(second_ha))->fields[2];
    CHECK_FALSE(f.running);
    REQUIRE(f.done.size() == 1);
    CHECK(f.done[0].passes == 1);
    CHECK(f.now.lay == straw::Lay::chopped);
  }
  const FieldState short_of_it = state_of(parts(5.8))->fields[2];
  CHECK(short_of_it.done.empty());
  REQUIRE(short_of_it.running);
  CHECK(short_of_it.running->area_ha == Approx(15.8));
  const auto no_more =
      state_of(put_written({{"3", Worked{.operation = "chop", .area_ha = 16.0, .no_more = true}}}));
  REQUIRE(no_more->fields[2].done.size() == 1);
  CHECK(no_more->fields[2].done[0].passes == 1);
  CHECK(no_more->fields[2].done[0].no_more);
  CHECK(no_more->fields[2].now.lay == straw::Lay::chopped);
}

TEST_CASE("more of a pass whose parts have come to the whole is of the same pass, until it is finished",
          "[identity]") {
  const auto disked = [](std::vector<Worked> said) {
    std::vector<WrittenOn> all;
    for (const Worked& w : said) all.push_back({"3", w});
    return state_of(put_written(all))->fields[2];
  };
  const Worked half = part_of_pass("disk", 8.0);
  const FieldState once = disked({half, half, half});
  REQUIRE(once.done.size() == 1);
  CHECK(once.done[0].passes == 1);
  CHECK_FALSE(once.running);
  CHECK(once.last_end == once.done[0].last_day);
  CHECK(disked({half, half, whole_pass("disk")}).done[0].passes == 1);
  const FieldState twice = disked({half, half, whole_pass("disk"), whole_pass("disk")});
  REQUIRE(twice.done.size() == 1);
  CHECK(twice.done[0].passes == 2);
  const FieldState begun_anew = disked({half, last_part_of_pass("disk", 8.0), half});
  REQUIRE(begun_anew.running);
  CHECK(begun_anew.running->area_ha == Approx(8.0));
}

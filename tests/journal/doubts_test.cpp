// What looks odd in the journal is told, never refused; and parts that come to the whole field are a pass.

#include "aftercut/journal/doubts.hpp"

#include "aftercut/journal/state.hpp"
#include "autumn_entries.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::journal;
using namespace aftercut::test;

namespace {

std::vector<std::string> doubt_lines(const farm::Problem& p) {
  std::vector<std::string> all;
  for (const farm::Doubt& d : doubts_of(p)) all.push_back(doubt_words(p.farm, d));
  return all;
}

}  // namespace

TEST_CASE("parts of one pass that come to clearly more than the field are told", "[identity]") {
  struct Row {
    const char* what;
    std::vector<WrittenOn> said;
    std::vector<int> entries;  ///< told; none: nothing is
    double written_ha;
  };
  const std::vector<Row> rows{
      {"the field's area",
       {{"3", part_of_pass("chop", 10.0)}, {"3", last_part_of_pass("chop", 6.0)}},
       {},
       0.0},
      {"5 % more", {{"3", part_of_pass("chop", 10.0)}, {"3", last_part_of_pass("chop", 6.8)}}, {}, 0.0},
      {"more than 5 %",
       {{"3", part_of_pass("chop", 10.0)}, {"3", last_part_of_pass("chop", 6.9)}},
       {1, 2},
       16.9},
      {"not finished yet",
       {{"3", part_of_pass("chop", 10.0)}, {"3", part_of_pass("chop", 10.0)}},
       {1, 2},
       20.0},
      {"the rest without an area",
       {{"3", part_of_pass("chop", 10.0)}, {"3", part_of_pass("chop", 8.0)}, {"3", whole_pass("chop")}},
       {1, 2},
       18.0},
      {"two passes",
       {{"3", last_part_of_pass("chop", 16.0)}, {"3", last_part_of_pass("chop", 16.0)}},
       {},
       0.0},
      {"another field's", {{"3", part_of_pass("chop", 10.0)}, {"2", part_of_pass("chop", 10.0)}}, {}, 0.0},
      {"hauled in hectares, as any pass",
       {{"3", whole_pass("bale")}, {"3", part_of_pass("haul", 10.0)}, {"3", part_of_pass("haul", 9.0)}},
       {2, 3},
       19.0},
      {"baled in parts, bales hauled between",
       {{"3", part_of_pass("bale", 8.0)},
        {"3", part_of_pass("haul", 8.0)},
        {"3", part_of_pass("bale", 8.0)},
        {"3", part_of_pass("haul", 8.0)}},
       {},
       0.0},
      {"another operation between",
       {{"3", part_of_pass("chop", 10.0)},
        {"3", part_of_pass("disk", 8.0)},
        {"3", part_of_pass("chop", 10.0)}},
       {},
       0.0}};
  for (const Row& row : rows) {
    INFO(row.what);
    const auto doubts = doubts_of(put_written(row.said));
    REQUIRE(doubts.size() == (row.entries.empty() ? 0U : 1U));
    if (doubts.empty()) continue;
    CHECK(doubts[0].what == farm::Doubt::What::area_beyond);
    CHECK(doubts[0].entries == row.entries);
    CHECK(doubts[0].written_ha == Approx(row.written_ha));
  }
  farm::Problem p = put_written({{"3", part_of_pass("chop", 10.0)}, {"3", part_of_pass("chop", 9.5)}});
  CHECK(doubt_lines(p) == std::vector<std::string>{
                              "3: 19.5 ha of chop written down on 16 ha (entries 1, 2): the pass counts as "
                              "done; correct an entry if a figure is wrong"});
  p.farm.units = farm::UnitSystem::us;
  CHECK(doubt_lines(p)[0].starts_with("3: 48.19 acres of chop written down on 39.54 acres"));
}

TEST_CASE("work that only ruled out methods have is told, whatever was said first", "[identity]") {
  const std::vector<const char*> baling{"bale", "bale_disk", "bale_flood", "bale_low"};
  const auto said = [&](std::size_t ruled_out, What before, What after) {
    std::vector<WrittenOn> all{{"2", before}};
    for (std::size_t k = 0; k < ruled_out; ++k)
      all.push_back({"2", Word{.what = Word::What::not_method, .method = baling[k], .why = "straw stays"}});
    all.push_back({"2", after});
    return doubt_lines(put_written(all));
  };
  const auto only = said(4, whole_pass("bale"), part_of_pass("bale", 1.0));
  REQUIRE(only.size() == 1);
  CHECK(only[0].starts_with("2: bale written down (entries 1, 6)"));
  CHECK(only[0].find("(bale, bale_disk, bale_flood, bale_low)") != std::string::npos);
  CHECK(said(3, whole_pass("bale"), whole_pass("bale")).empty());  // one that bales is open
  CHECK(said(4, whole_pass("disk"), whole_pass("disk")).empty());
  CHECK(said(4, whole_pass("bale"), Word{.what = Word::What::free, .method = "", .why = ""}).empty());
}

TEST_CASE("bales on a field that nobody baled are told, until the baling is written down", "[identity]") {
  const Bales counted{.counted = 100.0}, hauled{.hauled = 40.0};
  const auto doubts = doubts_of(put_written({{"2", counted}, {"2", hauled}, {"3", whole_pass("bale")}}));
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0].what == farm::Doubt::What::not_baled);
  CHECK(doubts[0].field == 1);
  CHECK(doubts[0].entries == std::vector{1, 2});
  CHECK(doubt_lines(put_written({{"2", part_of_pass("haul", 2.0)}}))[0].starts_with(
      "2: bales counted or hauled (entry 1), but no baling is written down there"));
  CHECK(doubts_of(put_written({{"2", counted}, {"2", hauled}, {"2", part_of_pass("bale", 2.0)}})).empty());
}

TEST_CASE("bales hauled where none lie any more are told, and nothing is hauled again", "[identity]") {
  const std::vector<WrittenOn> gone{{"2", whole_pass("bale")}, {"2", whole_pass("haul")}};
  for (const What& more : {What{part_of_pass("haul", 2.0)}, What{whole_pass("haul")}}) {
    std::vector<WrittenOn> said = gone;
    said.push_back({"2", more});
    const farm::Problem p = put_written(said);
    const FieldState f = state_of(p)->fields[1];
    CHECK_FALSE(f.running);
    CHECK(f.done.size() == 2);
    CHECK(f.bales_lie == 0.0);
    const auto doubts = doubts_of(p);
    CHECK(doubts.size() == (std::get<Worked>(more).area_ha ? 1U : 0U));
    for (const farm::Doubt& d : doubts) CHECK(d.what == farm::Doubt::What::bales_beyond);
  }
  std::vector<WrittenOn> in_turns{{"2", part_of_pass("bale", 5.0)},
                                  {"2", last_part_of_pass("haul", 5.0)},
                                  {"2", part_of_pass("bale", 7.0)},
                                  {"2", last_part_of_pass("haul", 7.0)}};
  CHECK(doubts_of(put_written(in_turns)).empty());
}

TEST_CASE("more bales hauled than lay there are told, and all count as hauled", "[identity]") {
  const std::vector<WrittenOn> baled{{"2", whole_pass("bale")}, {"2", Bales{.counted = 100.0}}};
  const auto with = [&](double hauled) {
    std::vector<WrittenOn> said = baled;
    said.push_back({"2", Bales{.hauled = hauled}});
    return put_written(said);
  };
  CHECK(doubts_of(with(60.0)).empty());
  CHECK(doubts_of(with(100.0)).empty());
  const farm::Problem more = with(120.0);
  REQUIRE(doubts_of(more).size() == 1);
  CHECK(doubts_of(more)[0].what == farm::Doubt::What::bales_beyond);
  CHECK(doubt_lines(more)[0].starts_with("2: more bales hauled than lay there (entry 3)"));
  CHECK(state_of(more)->fields[1].bales_lie == 0.0);
}

// Plain words for entries, against what they mean.
#include "aftercut/journal/form.hpp"

#include "catch2/catch.hpp"
#include "small_farm.hpp"
#include "written.hpp"

using namespace aftercut;
using namespace aftercut::journal;

namespace {

const Names names{.fields = {"N3", "7", "South 2"},
                  .operations = {"disk", "bale", "burn", "boards_in", "boards_out", "cage_roll"},
                  .methods = {"chop_disk", "burn"},
                  .machines = {"T2", "disk 1", "baler"},
                  .people = {"Ana", "Bo"},
                  .burning = "burn",
                  .boards_in = "boards_in",
                  .boards_out = "boards_out"};

Worked work(const std::string& operation, std::optional<double> area_ha = {}, bool finished = false) {
  Worked w;
  w.operation = operation;
  w.area_ha = area_ha;
  w.finished = finished;
  return w;
}

struct Row {
  std::string words;
  What what;
  std::optional<std::string> field = "N3";
  std::string note = "";
  std::optional<int> corrects = {};
};

std::vector<Row> rows() {
  const Date day = make_date(2026, 10, 20);
  Worked part = work("disk", 12.5), more = work("disk", 12.5, true), skipped = work("disk"),
         others = work("disk");
  part.hours = 4.0;
  more.hours = 4.0;
  more.fuel_l = 80.0;
  skipped.no_more = true;
  others.by_others = others.finished = true;
  Worked neighbour = work("disk", 4.0), boards = work("boards_in", {}, true);
  neighbour.by_others = true;
  boards.board_cm = 15.0;
  return {
      {"N3 disk 12.5 ha 4 h", part},
      {"n3 disk 12.5ha 4h", part},
      {"N3 disk 4 h 80 L finished 12.5 ha", more},
      {"N3 disk finished", work("disk", {}, true)},
      {"7 disk finished", work("disk", {}, true), "7"},
      {"South 2 disk finished", work("disk", {}, true), "South 2"},
      {"south-2 cage roll finished", work("cage_roll", {}, true), "South 2"},
      {"N3 disk 4 ha because the tractor broke", work("disk", 4.0), "N3", "the tractor broke"},
      {"N3 skip disk because it is clean", skipped, "N3", "it is clean"},
      {"N3 neighbour disk", others},
      {"N3 neighbor disk 4 ha", neighbour},
      {"rain 23 mm", Rain{23.0}, std::nullopt},
      {"rain 1 in", Rain{25.4}, std::nullopt},
      {"N3 rain 18 mm", Rain{18.0}},
      {"N3 looked wet", Looked{false, {}, {}, {}}},
      {"N3 looked workable cover 60 %", Looked{true, {}, 60.0, {}}},
      {"N3 looked standing 5 cm cover 60% straw 3 t/ha", Looked{{}, 5.0, 60.0, 3000.0}},
      {"N3 water on", Water{Water::What::on, {}, {}}},
      {"N3 water on 10 cm", Water{Water::What::on, 10.0, {}}},
      {"N3 water off", Water{Water::What::off, {}, {}}},
      {"N3 water metered 800 m3", Water{Water::What::metered, {}, 800.0}},
      {"N3 boards in 15 cm", boards},
      {"N3 boards out", work("boards_out", {}, true)},
      {"N3 harvested", Harvested{{}, "", {}}},
      {"N3 harvested 9000 kg/ha windrow cut 30 cm", Harvested{9000.0, "windrow", 30.0}},
      {"N3 bales 412 counted", Bales{412.0, {}}},
      {"N3 bales 100 hauled", Bales{{}, 100.0}},
      {"baler down until 2026-10-20", Presence{Presence::What::down, "baler", day}, std::nullopt},
      {"ana down because of a wedding", Presence{Presence::What::down, "Ana", {}}, std::nullopt,
       "of a wedding"},
      {"disk1 up", Presence{Presence::What::up, "disk 1", {}}, std::nullopt},
      {"disk 1 here", Presence{Presence::What::here, "disk 1", {}}, std::nullopt},
      {"N3 burn asked", BurnWord{BurnWord::What::asked, "", ""}},
      {"N3 burn asked the office", BurnWord{BurnWord::What::asked, "the office", ""}},
      {"N3 burn answered \"not before noon\" by \"the office\"",
       BurnWord{BurnWord::What::answered, "the office", "not before noon"}},
      {"N3 burn done", work("burn", {}, true)},
      {"N3 burn stopped 4 ha", work("burn", 4.0)},
      {"N3 method chop-disk because it held last year",
       Word{Word::What::method, "chop_disk", {}, "it held last year"}},
      {"N3 not burn because of the hay", Word{Word::What::not_method, "burn", {}, "of the hay"}},
      {"N3 too wet until 2026-10-20 because of ruts", Word{Word::What::too_wet, "", day, "of ruts"}},
      {"N3 too wet", Word{Word::What::too_wet, "", {}, ""}},
      {"N3 free", Word{Word::What::free, "", {}, ""}},
      {"take back 17", TakenBack{}, std::nullopt, "", 17},
      {"correct 17 N3 disk 12.5 ha 4 h", part, "N3", "", 17},
  };
}

Issue fault_of(const std::string& words) {
  const auto form = read_form({words_of(words), {}}, names);
  CAPTURE(words);
  REQUIRE(form.issues().size() == 1);
  return form.issues()[0];
}

}  // namespace

TEST_CASE("every form of words means its entry", "[derived]") {
  for (const Row& row : rows()) {
    CAPTURE(row.words);
    const auto form = read_form({words_of(row.words), {}}, names);
    for (const Issue& issue : form.issues()) FAIL_CHECK(to_text(issue));
    if (!form.ok()) continue;
    CHECK(form.value().what == row.what);
    CHECK((form.value().field ? std::optional{form.value().field->value} : std::nullopt) == row.field);
    CHECK(form.value().note == row.note);
    CHECK(form.value().corrects == row.corrects);
  }
}

TEST_CASE("machines and people are named beside the words, however they are spelt", "[identity]") {
  const auto form = read_form({words_of("N3 disk 4 ha"), {"t2", "disk1", "ANA"}}, names);
  REQUIRE(form.ok());
  CHECK(std::get<Worked>(form.value().what).with == std::vector<std::string>{"T2", "disk 1", "Ana"});
  const auto unknown = read_form({words_of("N3 disk 4 ha"), {"Anna", "T2", "Zoe"}}, names);
  REQUIRE(unknown.issues().size() == 2);
  CHECK(unknown.issues()[0].fix == "did you mean `Ana`?");
  CHECK(read_form({words_of("rain 4 mm"), {"Ana"}}, names).issues().size() == 1);
}

TEST_CASE("words that make no sense are told, with what is near them", "[identity]") {
  CHECK(fault_of("N3 dsik 4 ha").fix == "did you mean `disk`?");
  CHECK(fault_of("balr down").fix == "did you mean `baler`?");
  CHECK(fault_of("N3 method chopdisc").fix == "did you mean `chop_disk`?");
  CHECK(fault_of("N3 disk 4").found == "4");
  CHECK(fault_of("N3 disk 4 kg").found == "4 kg");
  CHECK(fault_of("N3 disk 4 ha 5 acre").expected == "each amount once");
  CHECK(fault_of("N3 disk").found == "nothing more");
  CHECK(fault_of("N3 disk 4 ha quickly").found == "quickly");
  CHECK(fault_of("N3 rain").expected == "an amount in mm or a unit like it");
  CHECK(fault_of("N3 looked").found == "nothing more");
  CHECK(fault_of("N3 water").found == "nothing more");
  CHECK(fault_of("N3 bales counted").found == "counted");
  CHECK(fault_of("N3 bales 40 seen").found == "seen");
  CHECK(fault_of("N3 burn answered").expected == "the authority's words");
  CHECK(fault_of("N3 too wet until tomorrow").found == "tomorrow");
  CHECK(fault_of("baler").found == "nothing more");
  CHECK(fault_of("take back it").found == "it");
  CHECK(fault_of("take back 1.5").found == "1.5");
  CHECK(fault_of("correct 3").found == "nothing more");
  CHECK(fault_of("").found == "nothing more");
  CHECK(fault_of("N3 free at last").found == "at");
  CHECK(fault_of("N3 disk 4 ha because").expected == "the reason");
}

TEST_CASE("any words at all are a form or an issue", "[identity]") {
  const std::vector<std::string> pieces{"N3",    "disk",     "4",  "ha",   "rain",   "mm", "because",
                                        "until", "water",    "on", "take", "back",   "17", "burn",
                                        "asked", "answered", "by", "too",  "wet",    "-1", "\"",
                                        "1e999", "",         "%",  "nan",  "correct"};
  for (std::size_t a = 0; a < pieces.size(); ++a)
    for (std::size_t b = 0; b < pieces.size(); ++b)
      for (std::size_t c = 0; c < pieces.size(); ++c)
        for (const char* end : {"", "4", "ha"})
          CHECK_NOTHROW((void)read_form({{pieces[a], pieces[b], pieces[c], end}, {}}, names));
}

TEST_CASE("what the farm does not have, or not yet, is told", "[identity]") {
  const farm::Problem p = test::small_problem(1);
  const Date today = p.farm.season.first + 60;
  Entry e = test::entry("a", test::disked(12.0));
  e.field = p.farm.fields[1].id;
  e.done_on = today;
  CHECK(faults_on(p.farm, e, today).empty());
  std::get<Worked>(e.what).area_ha = p.farm.fields[1].area.value() + 0.1;
  CHECK(faults_on(p.farm, e, today).at(0).place == "area");
  std::get<Worked>(e.what).area_ha = 1.0;
  e.done_on = today + 1;
  CHECK(faults_on(p.farm, e, today).size() == 1);
  e.done_on = p.farm.season.first - 1;
  CHECK(faults_on(p.farm, e, today).size() == 1);
  e.field = FieldId{"none"};
  std::get<Worked>(e.what).operation = "dsik";
  std::get<Worked>(e.what).with = {"nobody here"};
  const Issues all = faults_on(p.farm, e, today);
  REQUIRE(all.size() == 4);
  CHECK(all[2].fix == "did you mean `disk`?");
}

TEST_CASE("an entry is said in the farm's units", "[derived]") {
  const auto list = test::one_of_each();
  CHECK(said_of(list[0], farm::UnitSystem::si) == "field N3: harvested 9100 kg/ha, windrow, cut at 32 cm");
  CHECK(said_of(list[1], farm::UnitSystem::us) ==
        "field N3: disk 30.89 acres, finished, by a neighbour, 4 h, 23.31 gal, boards 5.906 in, with T2, "
        "disk 1, Ana");
  CHECK(said_of(list[3], farm::UnitSystem::si) == "rain 23 mm");
  CHECK(said_of(list[6], farm::UnitSystem::si) ==
        "field N3: burn: answered \"no burning before noon, \"zone 3\"\" by the office");
  CHECK(said_of(list[8], farm::UnitSystem::us) == "field N3: water metered 0.6486 acre-feet");
  CHECK(said_of(list[13], farm::UnitSystem::si) == "taken back: entry 4");
}

TEST_CASE("a word without a letter is told as one, and a long one in part", "[regression]") {
  CHECK(fault_of("\"\"").found == "\"\"");
  CHECK(fault_of("N3 \"\" 4 ha").found == "\"\"");
  CHECK(fault_of("take back \"\"").found == "\"\"");
  CHECK(fault_of("N3 disk " + std::string(5000, 'x')).found.size() < 100);
  CHECK(fault_of("N3 disk 4" + std::string(5000, 'x')).found.size() < 100);
}

TEST_CASE("words that are not UTF-8 are told, all at once", "[regression]") {
  const auto form = read_form({{"N3", "disk\xFF", "4", "h\xC3"}, {"An\xE1"}}, names);
  REQUIRE(form.issues().size() == 3);
  CHECK(form.issues()[0].place == "word 2");
  CHECK(form.issues()[0].found == "\"disk?\"");
  CHECK(form.issues()[1].place == "word 4");
  CHECK(form.issues()[2].place == "--with, name 1");
  CHECK(read_form({{"N3", "burn", "answered", "m\xC3\xA1s tarde"}, {}}, names).ok());
}

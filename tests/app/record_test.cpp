// aftercut record, as a user runs it.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "catch2/catch.hpp"
#include "command_line.hpp"

using namespace aftercut::test;
using Json = nlohmann::json;

namespace {

Ran record(const DemoCopy& demo, const std::string& words) {
  return run_program("record " + demo.farm().string() + " " + words + " --by Ana --now 2026-11-02T18:03:22Z");
}

}  // namespace

TEST_CASE("an entry is recorded, listed, corrected and taken back", "[identity]") {
  const DemoCopy demo;
  const Ran first = record(demo, "A1 disk 4 ha 3 h --with t2,disk1,ana --on 2026-10-14");
  CHECK(first.err == "");
  CHECK(first.code == 0);
  CHECK_THAT(first.out, Catch::StartsWith("Entry 1: 2026-10-14, field A1: disk "));
  CHECK_THAT(first.out, Catch::EndsWith("with T2, disk 1, Ana.\n"));
  CHECK(record(demo, "rain 23 mm --on 2026-10-15").code == 0);
  CHECK(record(demo, "correct 1 A1 disk finished --on 2026-10-14 --note 'all of it'").code == 0);
  CHECK_THAT(record(demo, "take back 2").out, Catch::StartsWith("Entry 4: 2026-11-02, taken back: entry 2."));
  CHECK(record(demo, "A1 burn answered 'not before noon' by 'the office' --on 2026-10-16").code == 0);
  const Ran list = record(demo, "--list");
  CHECK(list.code == 0);
  CHECK(std::ranges::count(list.out, '\n') == 5);
  CHECK_THAT(list.out, Catch::Contains("   3  2026-10-14  field A1: disk finished (in the place of entry 1). "
                                       "all of it (Ana)\n"));
  CHECK_THAT(list.out, Catch::Contains("burn: answered \"not before noon\" by the office"));
  const Json json = Json::parse(record(demo, "--list --json").out);
  REQUIRE(json["entries"].size() == 5);
  CHECK(json["entries"][0]["data"]["area_ha"] == 4.0);
  CHECK(run_program("check " + demo.farm().string()).code == 0);
}

TEST_CASE("an entry that looks odd beside others stands, and a line says so", "[identity]") {
  const DemoCopy demo;
  const Json whole = Json::parse(record(demo, "A1 disk finished --on 2026-10-10 --json").out);
  REQUIRE(whole["entries"].size() == 1);
  CHECK(record(demo, "A1 chop 10 ha --on 2026-10-12").err.empty());
  Ran odd;
  for (int day = 13; day < 23 && odd.err.empty(); ++day)
    odd = record(demo, "A1 chop 10 ha --on 2026-10-" + std::to_string(day));
  CHECK(odd.code == 0);
  CHECK_THAT(odd.out, Catch::StartsWith("Entry "));
  CHECK_THAT(odd.err, Catch::StartsWith("A1: "));
  CHECK_THAT(odd.err, Catch::Contains("of chop written down on ") && Catch::Contains("(entries 2, 3"));
  CHECK(std::ranges::count(odd.err, '\n') == 1);
  CHECK(record(demo, "A2 disk 1 ha --on 2026-10-20").err.empty());  // told once, with the entry it is about
}

TEST_CASE("the same id twice stands once; a dry run writes nothing", "[identity]") {
  const DemoCopy demo;
  CHECK(record(demo, "rain 23 mm --on 2026-10-15 --id a --dry-run").code == 0);
  CHECK_FALSE(std::filesystem::exists(demo.farm() / "journal.jsonl"));
  CHECK_THAT(record(demo, "rain 23 mm --on 2026-10-15 --id a").out, Catch::StartsWith("Entry 1:"));
  CHECK_THAT(record(demo, "rain 23 mm --on 2026-10-15 --id a").out, Catch::StartsWith("Entry 1:"));
  CHECK(record(demo, "rain 24 mm --on 2026-10-15 --id a").code == 2);
}

TEST_CASE("faults of an entry are told, and nothing is written", "[identity]") {
  const DemoCopy demo;
  const char* const faulty[]{"",
                             "A1 dsik 4 ha --on 2026-10-14",
                             "A1 disk 4000 ha --on 2026-10-14",
                             "A1 disk 4 ha --on 2026-11-03",
                             "A1 disk 4 ha --on 2026-08-01",
                             "A1 disk 4 ha --on yesterday",
                             "A1 disk 4 ha --with zoe --on 2026-10-14",
                             "rain -3 mm --on 2026-10-14",
                             "take back 1",
                             "--import no-such.csv"};
  for (const char* words : faulty) {
    const Ran ran = record(demo, words);
    CAPTURE(words, ran.out);
    CHECK(ran.code == 2);
    CHECK_THAT(ran.err, Catch::Contains("expected:"));
  }
  CHECK_FALSE(std::filesystem::exists(demo.farm() / "journal.jsonl"));
}

TEST_CASE("a table is imported once, or all its faults are told", "[identity]") {
  const DemoCopy demo;
  const auto file = demo.root() / "notes.csv";
  put_text(file,
           "done_on,field,what,with,by,note\n"
           "2026-10-14,A1,disk 4 ha,\"T2,Ana\",Bo,\n"
           "2026-10-15,,rain 23 mm,,,at the house\n"
           "2026-10-15,,rain 23 mm,,,at the house\n"
           "2026-10-16,A1,\"burn answered \"\"not before noon\"\" by \"\"the office\"\"\",,,\n");
  CHECK(record(demo, "--import " + file.string()).out == "4 entries stand, the last is number 4.\n");
  CHECK(record(demo, "--import " + file.string()).out == "4 entries stand, the last is number 4.\n");
  const Json list = Json::parse(record(demo, "--list --json").out)["entries"];
  REQUIRE(list.size() == 4);
  CHECK(list[0]["by"] == "Bo");
  CHECK(list[0]["data"]["with"] == Json{"T2", "Ana"});
  CHECK(list[3]["data"]["words"] == "not before noon");
  put_text(file,
           "done_on,field,what,with,by,note\n"
           "2026-10-14,A1,correct 1 disk 5 ha,T2,Bo,the map says more\n");
  CHECK(record(demo, "--import " + file.string()).out == "1 entry stands, number 5.\n");
  const Json last = Json::parse(record(demo, "--list --json").out)["entries"].back();
  CHECK(last["field"] == "A1");
  CHECK(last["corrects"] == 1);
  CHECK(last["data"]["area_ha"] == 5.0);
  put_text(file,
           "done_on,field,what,with\n"
           "2026-10-32,A1,disk 4 ha,\n"
           "2026-10-15,,rain 9000 mm,\n"
           "2026-10-15,77x,disk 3 ha,\n"
           "2026-10-15,A1,disk 3 ha,zoe\n");
  const Ran faulty = record(demo, "--json --import " + file.string());
  CHECK(faulty.code == 2);
  const Json issues = Json::parse(faulty.out)["issues"];
  std::set<std::string> lines;
  for (const Json& issue : issues) lines.insert(issue["place"].get<std::string>().substr(0, 6));
  CHECK(lines == std::set<std::string>{"line 2", "line 3", "line 4", "line 5"});
  CHECK(Json::parse(record(demo, "--list --json").out)["entries"].size() == 5);
}

TEST_CASE("a journal that was changed is told by its line", "[identity]") {
  const DemoCopy demo;
  REQUIRE(record(demo, "rain 23 mm --on 2026-10-15").code == 0);
  REQUIRE(record(demo, "rain 24 mm --on 2026-10-16").code == 0);
  edit(demo.farm() / "journal.jsonl", "\"mm\":23.0", "\"mm\":32.0");
  const Ran list = record(demo, "--list");
  CHECK(list.code == 2);
  CHECK_THAT(list.err, Catch::Contains("line 1"));
  CHECK(record(demo, "rain 25 mm --on 2026-10-17").code == 2);
}

TEST_CASE("what reading the farm would refuse later is refused at once", "[identity]") {
  const DemoCopy demo;
  REQUIRE(record(demo, "C5 harvested --on 2026-10-15").code == 0);
  REQUIRE(record(demo, "C5 disk 3 ha --on 2026-10-20").code == 0);
  const std::string before = text_of(demo.farm() / "journal.jsonl");
  for (const char* words :
       {"D5 disk finished --on 2026-10-20", "C5 disk 3 ha --on 2026-10-10", "A1 disk finished --with rake",
        "A1 bales 30 hauled", "take back 1", "correct 1 C5 harvested --on 2026-10-25",
        "A1 disk finished --with rake --dry-run"}) {
    const Ran ran = record(demo, words);
    CAPTURE(words, ran.out);
    CHECK(ran.code == 2);
    CHECK_THAT(ran.err, Catch::Contains("journal.jsonl: entry "));
  }
  const auto file = demo.root() / "notes.csv";
  put_text(file, "done_on,what\n2026-10-20,A1 disk 4 ha\n2026-10-20,D5 disk 4 ha\n");
  CHECK(record(demo, "--import " + file.string()).code == 2);
  CHECK(text_of(demo.farm() / "journal.jsonl") == before);
  CHECK(record(demo, "take back 2").code == 0);
  CHECK(record(demo, "take back 1").code == 0);
}

TEST_CASE("what the journal does not take is told by a dry run too, and bytes that are no text",
          "[regression]") {
  const DemoCopy demo;
  const std::string bytes = "$(printf '\\377')";  // for the shell
  const std::string start = "record " + demo.farm().string() + " ", now = " --now 2026-11-02T18:03:22Z";
  for (const std::string& words :
       {std::string{"rain 99999 mm"}, "rain 3 mm --note " + bytes, "rain 3 mm --by " + bytes,
        "rain 3 mm --id " + bytes, "rain 3 mm --note " + std::string(3000, 'x'), bytes + " 3 mm"})
    for (const char* how : {"", " --dry-run", " --json", " --dry-run --json"}) {
      CAPTURE(words, how);
      CHECK(run_program(start + words + now + how).code == 2);
      CHECK_FALSE(std::filesystem::exists(demo.farm() / "journal.jsonl"));
    }
  put_text(demo.root() / "rows.csv", "done_on,what\n2026-10-20,rain 3 mm\n");
  CHECK(
      run_program(start + "--import " + (demo.root() / "rows.csv").string() + " --by " + bytes + now).code ==
      2);
}

// The journal over the server's port: written once, refused with its issues, told to the other pages.

#include <atomic>
#include <set>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "served.hpp"
#include "shown.hpp"

using namespace aftercut;
using test::error_code;
using test::field_of;
using test::json_type;
using test::Served;
using test::shown;
using json = test::Json;

namespace {

std::string body(const std::string& words, const std::string& id, const std::string& day = "2026-11-01") {
  return json{{"entries", {{{"id", id}, {"done_on", day}, {"by", "Ana"}, {"words", words}}}}}.dump();
}

std::filesystem::path journal_of(const Served& s) { return s.scratch.path / "journal.jsonl"; }

std::string bytes_of(const Served& s) {
  const auto text = read_file(journal_of(s));
  return text.ok() ? text.value() : "";
}

/// The stage in which the question ends.
std::string ended(const Served& s, const std::string& job) {
  for (int i = 0; i < 6000; ++i) {
    const std::string stage = s.job(job)["stage"];
    if (stage == "planned" || stage == "refused" || stage == "given_up" || stage == "failed") return stage;
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  }
  return "still on its way";
}

std::string ask(const Served& s, const char* path, const std::string& what) {
  auto c = s.client();
  const auto asked = c.Post(path, what, json_type);
  REQUIRE(asked);
  REQUIRE(asked->status == 202);
  return json::parse(asked->body)["job"];
}

std::string file_of(const Served& s, const std::string& name) {
  const auto text = read_file(s.scratch.path / "out" / name);
  REQUIRE(text.ok());
  return text.value();
}

}  // namespace

TEST_CASE("an entry is answered once it is in the file, and the journal shows it", "[identity]") {
  const Served s{"journal"};
  auto c = s.client();
  const json empty = shown(s);
  CHECK(empty["entries"].empty());
  CHECK(empty["next"] == 1);
  CHECK(empty["today"] == "2026-11-02");
  CHECK(empty["torn"] == false);
  CHECK(empty["since_plan"] == 0);
  const auto r = c.Post("/journal",
                        R"({"entries":[{"id":"a","by":"Ana","words":["A1","disk","12 ha"],"with":["t2","ana"],
                            "note":"wet \"corner\""},
                           {"id":"b","done_on":"2026-11-01","by":"Ana","words":"rain 23 mm"}]})",
                        json_type);
  REQUIRE(r);
  REQUIRE(r->status == 200);
  const json written = json::parse(r->body)["entries"];
  REQUIRE(written.size() == 2);
  CHECK(written[0]["seq"] == 1);
  CHECK(written[0]["words"] == "field A1: disk 12 ha, with T2, Ana. wet \"corner\"");
  CHECK(written[0]["done_on"] == "2026-11-02");  // none was said: today
  CHECK(std::ranges::count(bytes_of(s), '\n') == 2);
  const json after = shown(s);
  CHECK(after["since_plan"] == 2);
  CHECK(after["next"] == 3);
  REQUIRE(after["entries"].size() == 2);
  CHECK(after["entries"][0]["field"] == "A1");  // newest first
  CHECK(after["entries"][1]["words"] == "rain 23 mm");
  const json done = field_of(after, "A1")["done"];
  REQUIRE(done.size() == 1);
  CHECK(done[0]["operation"] == "disk");
  CHECK(done[0]["area_ha"] == 12.0);
}

TEST_CASE("the same id again gives the entry that stands; with other words it is refused", "[identity]") {
  const Served s{"journal_again"};
  auto c = s.client();
  const auto first = c.Post("/journal", body("A1 disk 4 ha", "x"), json_type);
  const std::string once = bytes_of(s);
  const auto again = c.Post("/journal", body("A1 disk 4 ha", "x"), json_type);
  CHECK(again->status == 200);
  CHECK(again->body == first->body);
  CHECK(error_code(c.Post("/journal", body("A1 disk 5 ha", "x"), json_type)) == "422 faulty");
  CHECK(bytes_of(s) == once);
}

TEST_CASE("what cannot be is refused with issues, and nothing is written", "[identity]") {
  const Served s{"journal_faulty"};
  auto c = s.client();
  struct Row {
    const char* what;
    std::string body;
    const char* place;
  };
  const std::vector<Row> rows{
      {"work on a field that stands", body("C5 disk finished", "a"), "entry 1: done_on"},
      {"a machine of another kind",
       R"({"entries":[{"words":"A1 disk finished","with":["rake"],"done_on":"2026-11-01"}]})",
       "entry 1: with"},
      {"a day to come", body("rain 3 mm", "a", "2026-11-03"), "--on"},
      {"no day", body("rain 3 mm", "a", "soon"), "entry 1, done_on"},
      {"words that make no sense", body("A1 dsik 4 ha", "a"), "entry 1, word 2"},
      {"no words", R"({"entries":[{"id":"a"}]})", "entry 1, words"},
      {"a key that is none", R"({"entries":[{"words":"rain 3 mm","seq":1}]})", "entry 1, seq"},
      {"words of numbers", R"({"entries":[{"words":["rain",3,"mm"]}]})", "entry 1, words"},
      {"no entry", R"({"entries":[7]})", "entry 1"},
      {"none", R"({"entries":[]})", "entries"},
      {"no JSON", "rain 3 mm", "whole body"},
      {"the second of two", R"({"entries":[{"words":"rain 3 mm"},{"words":"take back 9"}]})", "corrects"}};
  for (const Row& row : rows) {
    INFO(row.what);
    const auto r = c.Post("/journal", row.body, json_type);
    CHECK(error_code(r) == "422 faulty");
    CHECK(json::parse(r->body)["error"]["issues"][0]["place"] == row.place);
    CHECK(bytes_of(s).empty());
  }
}

TEST_CASE("the journal has the guard of every change", "[identity]") {
  const Served s{"journal_guard"};
  httplib::Client plain{"127.0.0.1", s.port};
  const std::string own = "http://127.0.0.1:" + std::to_string(s.port);
  const std::string cookie = "aftercut_" + std::to_string(s.port) + "=" + test::server_key;
  const std::string good = body("rain 3 mm", "a");
  CHECK(error_code(plain.Get("/journal")) == "401 no-key");
  CHECK(error_code(plain.Post("/journal", {{"Origin", own}}, good, json_type)) == "401 no-key");
  CHECK(error_code(plain.Post("/journal", {{"Cookie", cookie}}, good, json_type)) == "403 wrong-origin");
  CHECK(error_code(plain.Post("/journal", {{"Cookie", cookie}, {"Origin", "http://elsewhere"}}, good,
                              json_type)) == "403 wrong-origin");
  CHECK(error_code(plain.Post("/journal", {{"Cookie", cookie}, {"Origin", own}}, good, "text/plain")) ==
        "415 not-json");
  CHECK(error_code(plain.Post("/journal", {{"Cookie", cookie}, {"Origin", own}}, std::string(1200000, ' '),
                              json_type)) == "413 too-large");
  CHECK(bytes_of(s).empty());
  CHECK(plain.Post("/journal", {{"Cookie", cookie}, {"Origin", own}}, good, json_type)->status == 200);
}

TEST_CASE("a torn last line is told, and put aside by the next entry", "[identity]") {
  const Served s{"journal_torn"};
  auto c = s.client();
  REQUIRE(c.Post("/journal", body("rain 3 mm", "a"), json_type)->status == 200);
  const std::string whole = bytes_of(s);
  REQUIRE(save_file(journal_of(s), whole + "{\"by\":\"An").ok());
  CHECK(shown(s)["torn"] == true);
  CHECK(shown(s)["next"] == 2);
  REQUIRE(c.Post("/journal", body("rain 4 mm", "b"), json_type)->status == 200);
  CHECK(shown(s)["torn"] == false);
  CHECK(bytes_of(s).starts_with(whole));
  CHECK(read_file(s.scratch.path / "journal.torn-1.txt").value() == "{\"by\":\"An");
  REQUIRE(save_file(journal_of(s), "{}\n" + whole).ok());
  CHECK(error_code(c.Get("/journal")) == "422 faulty");
  CHECK(error_code(c.Post("/journal", body("rain 5 mm", "c"), json_type)) == "422 faulty");
}

TEST_CASE("twelve phones at once, each asking twice: every entry once, under its own number", "[identity]") {
  const Served s{"journal_many"};
  std::atomic<int> good{0};
  {
    std::vector<std::jthread> phones;
    for (int k = 0; k < 24; ++k)
      phones.emplace_back([&, k] {
        auto c = s.client();
        const auto r = c.Post("/journal", body("rain 3 mm", "phone-" + std::to_string(k / 2)), json_type);
        if (r && r->status == 200) ++good;
      });
  }
  CHECK(good == 24);
  std::set<int> numbers;
  const json after = shown(s);
  for (const json& e : after["entries"]) numbers.insert(e["seq"].get<int>());
  CHECK(numbers.size() == 12);
  CHECK(*numbers.rbegin() == 12);
}

TEST_CASE("other pages are told, and the plan made again lies beside the one that stands", "[identity]") {
  const Served s{"journal_morning"};
  auto c = s.client();
  const std::string before = s.plan_files();
  REQUIRE(c.Post("/journal", body("rain 3 mm", "a"), json_type)->status == 200);
  std::string heard;
  s.client().Get("/events?after=0", [&](const char* data, std::size_t size) {
    heard.append(data, size);
    return heard.find("event: journal\ndata: {\"last\":1}") == std::string::npos;
  });
  CHECK(heard.find("event: journal") != std::string::npos);
  CHECK(error_code(c.Post("/again", R"({"as_of": "soon"})", json_type)) == "422 faulty");
  const auto asked = c.Post("/again", "{}", json_type);
  REQUIRE(asked);
  REQUIRE(asked->status == 202);
  const std::string job = json::parse(asked->body)["job"];
  REQUIRE(ended(s, job) == "planned");
  CHECK(s.job(job)["kind"] == "morning");
  CHECK(s.plan_files() == before);
  CHECK(std::filesystem::exists(s.scratch.path / "out/again/2026-11-02/report.html"));
  const json plan = json::parse(c.Get("/plans/" + job)->body);
  CHECK(plan.contains("again"));
  CHECK(plan["audit"]["ok"] == true);
  CHECK(c.Get("/?plan=" + job)->status == 200);
}

TEST_CASE("a plan made again stands from then on, and the one before is kept", "[identity]") {
  const Served s{"journal_stands"};
  const std::string before = file_of(s, "plan.json"), years = file_of(s, "plan-years.jsonl");
  CHECK(ended(s, ask(s, "/standing", R"({"plan": "base"})")) == "refused");
  CHECK(ended(s, ask(s, "/standing", R"({"plan": "morning-99"})")) == "refused");
  CHECK(file_of(s, "plan.json") == before);
  const std::string again = ask(s, "/again", "{}");
  REQUIRE(ended(s, again) == "planned");
  const std::string made = s.client().Get("/plans/" + again)->body;
  REQUIRE(made != before);
  REQUIRE(ended(s, ask(s, "/standing", json{{"plan", again}}.dump())) == "planned");
  CHECK(file_of(s, "plan.json") == made);
  CHECK(file_of(s, "report.html") == file_of(s, "again/2026-11-02/report.html"));
  CHECK(file_of(s, "stood/2026-10-12/plan.json") == before);
  CHECK(file_of(s, "stood/2026-10-12/plan-years.jsonl") == years);
  CHECK_FALSE(std::filesystem::exists(s.scratch.path / "out/unfinished.txt"));
  CHECK(s.client().Get("/plans/base")->body == made);
  CHECK(s.client().Get("/plans/" + again)->status == 404);
  CHECK(error_code(s.client().Post("/standing", R"({"plan": 7})", json_type)) == "422 faulty");
}

TEST_CASE("the days ahead are told, and the look is kept", "[identity]") {
  const Served s{"journal_ahead"};
  const json none = json::parse(s.client().Get("/ahead")->body);
  CHECK(none["ahead"].is_null());
  CHECK(none["looks"].empty());
  const std::string before = s.plan_files();
  const std::string job = ask(s, "/ahead", "{}");
  REQUIRE(ended(s, job) == "planned");
  CHECK(s.job(job)["plan"].is_null());
  const json answer = s.job(job)["answer"];
  CHECK(answer["ahead"]["fields"].size() == 23);
  REQUIRE(answer["looks"].size() == 1);
  CHECK(answer["looks"][0]["fields"] == answer["ahead"]["fields"]);
  CHECK(json::parse(s.client().Get("/ahead")->body) == answer);
  CHECK(json::parse(read_file(s.scratch.path / "readiness.jsonl").value()) == answer["looks"][0]);
  CHECK(answer["ahead"]["day"] == "2026-11-02");
  CHECK(s.plan_files() == before);
  REQUIRE(save_file(s.scratch.path / "readiness.jsonl", "torn").ok());
  CHECK(ended(s, ask(s, "/ahead", "{}")) == "refused");
  CHECK(read_file(s.scratch.path / "readiness.jsonl").value() == "torn");
}

// What GET /journal tells the page beside the entries.

#include <fmt/format.h>

#include <set>

#include "shown.hpp"

using namespace aftercut;
using test::field_of;
using test::json_type;
using test::Served;
using test::shown;
using json = test::Json;

TEST_CASE("the form's lists: planned work first, every operation once", "[identity]") {
  const Served s{"journal_form"};
  const json j = shown(s);
  const json plan = json::parse(s.client().Get("/plans/base")->body);
  bool planned = false;
  for (const json& f : j["fields"]) {
    std::set<std::string> once;
    for (const json& o : f["operations"]) once.insert(o.get<std::string>());
    CHECK(once.size() == j["operations"].size());
    CHECK(f["operations"].size() == once.size());
    for (std::size_t k = 0; k < f["near"].size(); ++k) {
      CHECK(f["operations"][k] == f["near"][k]);
      planned = true;
    }
  }
  bool in_week = false;
  for (const json& row : plan["schedule"])
    in_week = in_week || (row["end"].get<std::string>().substr(0, 10) >= "2026-11-02" &&
                          row["start"].get<std::string>() < "2026-11-09");
  CHECK(planned == in_week);
  CHECK(field_of(j, "C5")["cut"] == false);
  CHECK(j["people"].size() >= 2);
}

TEST_CASE("what looks odd is shown with the entry", "[identity]") {
  const Served s{"journal_odd"};
  auto c = s.client();
  CHECK(shown(s)["doubts"].empty());
  const double area = field_of(shown(s), "A1")["area_ha"];
  const auto r =
      c.Post("/journal",
             json{{"entries",
                   {{{"id", "a"}, {"by", "Ana"}, {"words", fmt::format("A1 chop {:.2f} ha", 0.6 * area)}},
                    {{"id", "b"}, {"by", "Ana"}, {"words", fmt::format("A1 chop {:.2f} ha", 0.6 * area)}}}}}
                 .dump(),
             json_type);
  REQUIRE(r);
  REQUIRE(r->status == 200);
  const json doubts = shown(s)["doubts"];
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0]["entries"] == json{1, 2});
  CHECK(doubts[0]["words"].get<std::string>().starts_with("A1: "));
}

// The server over its port: what it serves to the page, from the opened address to the whole plan.

#include <atomic>

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "served.hpp"

using namespace aftercut;
using test::error_code;
using test::json_type;
using test::Scratch;
using test::Served;
using test::surer;
using json = test::Json;

TEST_CASE("the page, its program, its plan and its state are served with strict headers", "[identity]") {
  const Served s{"serves"};
  auto c = s.client();
  const auto page = c.Get("/");
  REQUIRE(page);
  CHECK(page->status == 200);
  CHECK(page->body.find("id=\"served\"") != std::string::npos);
  CHECK(page->body.find("<script>") == std::string::npos);
  CHECK(page->body.find("<style") == std::string::npos);
  for (const char* path : {"/page.js", "/page.css", "/plans/base", "/state", "/plans/base/report.html"}) {
    INFO(path);
    const auto r = c.Get(path);
    REQUIRE(r);
    CHECK(r->status == 200);
    CHECK(r->body.size() > 100);
    CHECK(r->get_header_value_count("Content-Security-Policy") == 1);
    CHECK(r->get_header_value("Content-Security-Policy").find("unsafe") == std::string::npos);
    CHECK(r->get_header_value("X-Content-Type-Options") == "nosniff");
    CHECK(r->get_header_value("Cache-Control") == "no-store");
  }
  CHECK(json::parse(c.Get("/plans/base")->body)["farm"]["name"].get<std::string>().size() > 3);
  const json state = json::parse(c.Get("/state")->body);
  CHECK(state["plans"].size() == 1);
  CHECK(state["prices"].size() > 5);
}

TEST_CASE("the opened address puts its key into a cookie that scripts cannot read", "[identity]") {
  const Served s{"cookie"};
  httplib::Client plain{"127.0.0.1", s.port};
  const auto r = plain.Get("/?key=" + test::server_key);
  REQUIRE(r);
  CHECK(r->status == 303);
  CHECK(r->get_header_value("Location") == "/");
  const std::string cookie = r->get_header_value("Set-Cookie");
  for (const char* part : {"HttpOnly", "SameSite=Strict", test::server_key.c_str()})
    CHECK(cookie.find(part) != std::string::npos);
  CHECK(plain.Get("/", {{"Cookie", cookie.substr(0, cookie.find(';'))}})->status == 200);
  CHECK(error_code(plain.Get("/")) == "401 no-key");
  CHECK(error_code(plain.Get("/?key=wrong")) == "401 no-key");
}

TEST_CASE("a question by its port, from changes to the whole plan, with its events", "[identity]") {
  const Served s{"question"};
  auto c = s.client();
  std::string heard;
  std::atomic<bool> enough{false};
  std::thread listener{[&] {
    auto ear = s.client();
    ear.Get("/events?after=0", [&](const char* data, std::size_t size) {
      heard.append(data, size);
      return !enough &&
             heard.find("\"stage\":\"planned\",\"share\":1.0,\"saved_as\":\"surer\"") == std::string::npos;
    });
  }};
  const auto kept = c.Put("/scenarios/surer", surer, json_type);
  REQUIRE(kept);
  CHECK(kept->status == 200);
  const std::string mark = json::parse(kept->body)["mark"];
  CHECK(error_code(c.Put("/scenarios/surer", surer, json_type)) == "409 changed-meanwhile");
  CHECK(c.Put("/scenarios/surer", {{"If-Match", "\"" + mark + "\""}}, surer, json_type)->status == 200);
  CHECK(c.Get("/scenarios/surer")->get_header_value("ETag") == "\"" + mark + "\"");
  CHECK(error_code(c.Post("/plans?scenario=nobody", surer, json_type)) == "404 no-scenario");
  CHECK(error_code(c.Post("/plans?scenario=surer", R"({"changes": []})", json_type)) ==
        "409 changed-meanwhile");
  const auto asked = c.Post("/plans?scenario=surer", surer, json_type);
  REQUIRE(asked);
  REQUIRE(asked->status == 202);
  const std::string job = json::parse(asked->body)["job"];
  for (int i = 0; i < 6000 && s.job(job)["stage"] != "planned"; ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds{10});
  CHECK(s.job(job)["answer"]["words"].size() >= 3);
  CHECK(json::parse(c.Get("/plans/" + job)->body)["target"]["wanted_chance"] == 0.8);
  CHECK(std::filesystem::exists(s.scratch.path / "out/scenarios/surer/plan.json"));
  std::this_thread::sleep_for(std::chrono::milliseconds{300});
  enough = true;
  listener.join();
  CHECK(heard.find("event: job") != std::string::npos);
  CHECK(heard.find("event: progress") != std::string::npos);
  CHECK(heard.find("\"stage\":\"answering\"") != std::string::npos);
  CHECK(c.Delete("/scenarios/surer", {{"If-Match", "\"" + mark + "\""}})->status == 200);
  CHECK(error_code(c.Get("/scenarios/surer")) == "404 no-scenario");
}

TEST_CASE("a port that is taken is an issue", "[identity]") {
  const Served s{"taken"};
  const Scratch other{"taken_too"};
  server::Server second{test::served_farm(other), {"127.0.0.1", s.port, test::server_key}};
  const auto bound = second.bind();
  REQUIRE_FALSE(bound.ok());
  CHECK(bound.issues().front().place == "--port");
}

TEST_CASE("files, sheets and passes are given out; what is not there is told", "[identity]") {
  const Served s{"files"};
  auto c = s.client();
  for (const char* name :
       {"work.csv", "work.xlsx", "calendar.ics", "fields.gpkg", "fields.geojson", "truck-sheet.html",
        "truck-sheet.txt", "work-lists.html", "combine-card.html", "field-sheets.html"}) {
    INFO(name);
    const auto r = c.Get(std::string{"/plans/base/files/"} + name + "?paper=letter&language=es");
    REQUIRE(r);
    CHECK(r->status == 200);
    CHECK(r->body.size() > 100);
    CHECK(r->get_header_value("Content-Security-Policy").find("script-src") == std::string::npos);
  }
  CHECK(c.Get("/plans/base/files/work.csv")->body == read_file(s.scratch.path / "out/work.csv").value());
  CHECK(c.Get("/plans/base/files/calendar.ics")->body ==
        read_file(s.scratch.path / "out/calendar.ics").value());
  CHECK(error_code(c.Get("/plans/base/files/farm.json")) == "404 no-file");
  CHECK(error_code(c.Get("/plans/base/files/plan-years.jsonl")) == "404 no-file");
  CHECK(error_code(c.Get("/plans/base/files/truck-sheet.html?paper=a3")) == "422 faulty");
  const auto lines = c.Get("/passes/disk%201");
  REQUIRE(lines);
  CHECK(json::parse(lines->body)["features"].size() > 500);
  CHECK(error_code(c.Get("/passes/plough")) == "404 no-machine");
  CHECK(c.Get("/burn-sheets/B3?day=2026-10-20")->body.find("B3") != std::string::npos);
  CHECK(error_code(c.Get("/burn-sheets/B3?day=2020-01-01")) == "422 faulty");
  CHECK(error_code(c.Get("/burn-sheets/Z9")) == "404 no-field");
  CHECK(error_code(c.Get("/trade-offs")) == "404 not-weighed");
  CHECK(error_code(c.Get("/plans/weighed-base")) == "404 no-plan");
  CHECK(error_code(c.Get("/plans/weighed-..")) == "404 no-plan");
}

// The real server killed while it writes what its page asks for.

#include <fmt/format.h>

#include <map>
#include <random>
#include <set>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/mixed_files.hpp"
#include "aftercut/farm/change.hpp"
#include "catch2/catch.hpp"
#include "command_line.hpp"
#include "serving.hpp"

using namespace aftercut;
using namespace aftercut::test;
namespace fs = std::filesystem;

namespace {

std::string scenario_asked(int thousandths) {
  return fmt::format(R"({{"name": "surer", "changes": [{{"change": "want_chance", "chance": 0.{:03}}}]}})",
                     thousandths);
}
std::string scenario_fixed(const std::string& method) {
  return fmt::format(
      R"({{"name": "surer", "changes": [{{"change": "fix_method", "field": "B1", "method": "{}"}}]}})",
      method);
}
/// Of the file that is made of it.
std::string mark_of_asked(const std::string& asked) {
  return sha256_hex(farm::scenario_text(farm::read_scenario(asked, "asked").value()));
}

std::set<std::string> parts_in(const fs::path& folder) {
  std::set<std::string> found;
  if (!fs::exists(folder)) return found;
  for (const auto& entry : fs::recursive_directory_iterator{folder})
    if (entry.path().filename().string().find(".part") != std::string::npos)
      found.insert(entry.path().string());
  return found;
}

/// Scenarios put and deleted, each over what was seen: what was confirmed, and what was on its way.
class Scenarios {
 public:
  explicit Scenarios(fs::path folder) : folder_{std::move(folder)} {}

  bool ask(httplib::Client& c, int) {
    const std::string name = "s" + std::to_string(asked_ % 5), seen = marks_[name];
    const bool removes = asked_ % 7 == 6 && !seen.empty();
    const std::string body = scenario_asked(100 + asked_ % 800);
    ++asked_;
    on_its_way_ = {name, removes ? "" : mark_of_asked(body)};
    const httplib::Headers headers{{"If-Match", "\"" + seen + "\""}};
    const auto r = removes ? c.Delete("/scenarios/" + name, headers)
                           : c.Put("/scenarios/" + name, headers, body, json_type);
    if (!r) return false;
    if (r->status != 200) wrong_answer = r->body;
    marks_[name] = on_its_way_.second;
    on_its_way_ = {};
    ++confirmed;
    return true;
  }

  /// Every file is the one confirmed last, or the one that was on its way.
  void check_after_kill() {
    CHECK(wrong_answer.empty());
    for (auto& [name, mark] : marks_) {
      const fs::path file = folder_ / (name + ".json");
      const std::string text = fs::exists(file) ? text_of(file) : "",
                        found = text.empty() ? "" : sha256_hex(text);
      CAPTURE(name, text);
      CHECK((text.empty() == !fs::exists(file)));
      if (found != mark) {
        CHECK((name == on_its_way_.first && found == on_its_way_.second));
        ++done_but_not_said;
      }
      if (!text.empty()) CHECK(farm::read_scenario(text, name).ok());
      mark = found;
    }
    left_parts += parts_in(folder_).empty() ? 0 : 1;
  }
  /// What the next server tells of them, and that it can go on writing.
  void check_at_next_start(const Serving& next) {
    auto c = next.client();
    for (const auto& [name, mark] : marks_) {
      const auto r = c.Get("/scenarios/" + name);
      REQUIRE(r);
      CHECK(r->status == (mark.empty() ? 404 : 200));
      if (!mark.empty()) CHECK(r->get_header_value("ETag") == "\"" + mark + "\"");
    }
    CHECK(ask(c, 0));
    CHECK(wrong_answer.empty());
    CHECK(parts_in(folder_).empty());
  }

  int confirmed = 0, done_but_not_said = 0, left_parts = 0;
  std::string wrong_answer;

 private:
  fs::path folder_;
  std::map<std::string, std::string> marks_;  // by name; empty: no file
  std::pair<std::string, std::string> on_its_way_;
  int asked_ = 0;
};

std::map<std::string, std::string> files_of(const fs::path& folder) {
  std::map<std::string, std::string> files;
  if (!fs::exists(folder)) return files;
  for (const auto& entry : fs::directory_iterator{folder})
    if (entry.is_regular_file()) files[entry.path().filename().string()] = text_of(entry.path());
  return files;
}

/// Keeps the scenario and asks for its plan.
void ask_for_plan(const Serving& serving, const std::string& scenario) {
  auto c = serving.client();
  const auto there = c.Get("/scenarios/surer");
  REQUIRE(there);
  REQUIRE(c.Put("/scenarios/surer", {{"If-Match", there->get_header_value("ETag")}}, scenario, json_type)
              ->status == 200);
  const auto asked = c.Post("/plans?scenario=surer", scenario, json_type);
  REQUIRE(asked);
  REQUIRE(asked->status == 202);
}

void wait_until_planned(const Serving& serving) {
  for (int k = 0; k < 6000 && serving.stage() != "planned"; ++k) sleep_us(10000);
  REQUIRE(serving.stage() == "planned");
}

/// Sleeps until something that begins with `name` and ends in .part stands in the folder, with `inside` in
/// it.
void wait_for_part(Serving& serving, const fs::path& folder, const std::string& name,
                   const std::string& inside) {
  for (int k = 0; k < 3000000 && !serving.ended(); ++k, sleep_us(20)) {
    std::error_code gone;
    for (fs::directory_iterator at{folder, gone}, end; at != end; at.increment(gone))
      if (at->path().filename().string().starts_with(name) && fs::exists(at->path() / inside, gone)) return;
  }
}

}  // namespace

TEST_CASE("a server killed 40 times while scenarios are kept and thrown away", "[.long]") {
  const ServedDemo served;
  Scenarios scenarios{served.demo.farm() / "scenarios"};
  std::mt19937 draws{20261127};
  for (int run = 0; run < 40; ++run) {
    CAPTURE(run);
    {
      Serving serving = served.serve();
      const auto ask = [&](httplib::Client& c, int number) { return scenarios.ask(c, number); };
      ask_until_killed(serving, ask, [&] { sleep_us(static_cast<int>(draws() % 60000U)); });
    }
    scenarios.check_after_kill();
    if (run % 4 == 3) scenarios.check_at_next_start(served.serve());
  }
  CHECK(scenarios.confirmed > 40);
  WARN(scenarios.confirmed << " writes confirmed, all there; " << scenarios.done_but_not_said
                           << " were done and not confirmed; " << scenarios.left_parts
                           << " left a part, taken away by the next write");
}

TEST_CASE("a server killed 20 times while it writes the plan of a kept scenario", "[.long]") {
  const ServedDemo served;
  const fs::path plans = served.out() / "scenarios", plan = plans / "surer";
  const std::array<std::string, 2> asked{scenario_fixed("chop_disk"), scenario_fixed("leave")};
  std::array<std::map<std::string, std::string>, 2> whole;
  {
    const Serving serving = served.serve();
    for (std::size_t k = 0; k < 2; ++k) {
      ask_for_plan(serving, asked[k]);
      wait_until_planned(serving);
      whole[k] = files_of(plan);
      fs::copy(plan, served.demo.root() / std::to_string(k));
    }
  }
  REQUIRE(whole[0].at("plan.json") != whole[1].at("plan.json"));
  std::mt19937 draws{20261127};
  int cut_off = 0, mixed = 0, left_parts = 0;
  for (std::size_t run = 0; run < 20; ++run) {
    CAPTURE(run);
    const bool there = run % 5 != 0, moving = there && run % 3 != 0;
    fs::remove_all(plan);
    if (there) fs::copy(served.demo.root() / std::to_string((run + 1) % 2), plan);
    {
      Serving serving = served.serve();
      CHECK(parts_in(served.out()).empty());
      ask_for_plan(serving, asked[run % 2]);
      wait_for_part(serving, plans, ".surer.", moving ? "old" : "");
      sleep_us(static_cast<int>(draws() % (moving ? 15000U : 400000U)));
      serving.kill_hard();
    }
    left_parts += parts_in(plans).empty() ? 0 : 1;
    const auto files = files_of(plan);
    std::set<std::size_t> from;
    for (const auto& [name, text] : files) {
      CAPTURE(name);
      if (name == moving_mark) continue;
      CHECK((text == whole[0].at(name) || text == whole[1].at(name)));
      if (whole[0].at(name) != whole[1].at(name)) from.insert(text == whole[0].at(name) ? 0U : 1U);
    }
    CHECK((there || files.empty() || from.size() == 1));
    cut_off += from == std::set<std::size_t>{run % 2} && !files.contains(moving_mark) ? 0 : 1;
    if (from.size() > 1) {  // then it is told
      ++mixed;
      CHECK(files.contains(moving_mark));
      const Ran audited = run_program("audit " + served.demo.farm().string() + " " + plan.string());
      CHECK(audited.code == 2);
      CHECK(audited.err.find("files of two plans") != std::string::npos);
    }
  }
  const Serving serving = served.serve();
  CHECK(parts_in(served.out()).empty());
  ask_for_plan(serving, asked[0]);
  wait_until_planned(serving);
  CHECK(files_of(plan) == whole[0]);
  CHECK(cut_off > 5);
  WARN(cut_off << " of 20 servers were cut off before the plan was whole; " << mixed
               << " left files of two plans, told each time; " << left_parts
               << " left parts, cleared at the next start");
}

TEST_CASE("a server killed 10 times while it weighs the farm", "[.long]") {
  const ServedDemo served;
  const fs::path weighed = served.out() / "trade-offs";
  std::mt19937 draws{20261127};
  int told_whole = 0, unfinished = 0;
  for (int run = 0; run < 10; ++run) {
    CAPTURE(run);
    {
      Serving serving = served.serve();
      auto c = serving.client();
      const auto before = c.Get("/trade-offs");
      REQUIRE(before);
      const bool half = !mixed_files(weighed).empty() || !fs::exists(weighed / "trade-offs.json");
      CHECK(before->status == (half ? 404 : 200));
      if (!half) CHECK(nlohmann::json::accept(before->body));
      told_whole += half ? 0 : 1;
      CHECK(parts_in(served.out()).empty());
      REQUIRE(c.Post("/trade-offs", "{}", json_type)->status == 202);
      wait_for_part(serving, weighed, ".base.", "");
      sleep_us(static_cast<int>(draws() % 2000000U));
      serving.kill_hard();
    }
    unfinished += mixed_files(weighed).empty() ? 0 : 1;
    for (const auto& entry : fs::recursive_directory_iterator{weighed})
      if (entry.path().extension() == ".json" && entry.path().string().find(".part") == std::string::npos)
        CHECK(nlohmann::json::accept(text_of(entry.path())));
  }
  const Serving serving = served.serve();
  auto c = serving.client();
  REQUIRE(c.Post("/trade-offs", "{}", json_type)->status == 202);
  wait_until_planned(serving);
  CHECK(c.Get("/trade-offs")->status == 200);
  CHECK(mixed_files(weighed).empty());
  CHECK(parts_in(served.out()).empty());
  WARN(unfinished << " of 10 were killed before all was there, told each time; " << told_whole
                  << " starts found it whole");
}

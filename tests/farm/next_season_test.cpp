// The farm folder of the season to come: what moves, what stays behind, what is carried.

#include "aftercut/farm/next_season.hpp"

#include "aftercut/core/save_file.hpp"
#include "catch2/catch.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using test::FarmFiles;
using test::Json;
using test::Scratch;

namespace {

std::filesystem::path write_farm(const Scratch& s, const FarmFiles& f) {
  std::filesystem::create_directories(s.path / "farm");
  std::ignore = s.file("farm/farm.json", f.farm.dump());
  std::ignore = s.file("farm/fields.geojson", f.fields.dump());
  std::ignore = s.file("farm/weather.csv", f.weather);
  for (const auto& [name, text] : f.others) std::ignore = s.file("farm/" + name, text);
  return s.path / "farm";
}

Result<farm::NextSeason> next_of(const Scratch& s, const FarmFiles& f,
                                 std::vector<farm::FieldGone> gone = {}) {
  return farm::next_season({.from = write_farm(s, f), .to = s.path / "next", .fields = std::move(gone)});
}

farm::Problem read_next(const Scratch& s) {
  const auto read = farm::read(s.path / "next", {});
  INFO(test::all_text(read.issues()));
  REQUIRE(read.ok());
  return read.value();
}

Json document(const Scratch& s) { return Json::parse(read_file(s.path / "next" / "farm.json").value()); }

bool noted(const farm::NextSeason& n, const std::string& words) {
  return std::ranges::any_of(n.notes,
                             [&](const auto& note) { return note.find(words) != std::string::npos; });
}

/// A record that reaches to this season, and this season's days.
FarmFiles with_weather_so_far(Date record_until, Date seen_from, int seen_days) {
  FarmFiles f = test::small_farm();
  const Date first = make_date(2020, 9, 1);
  f.weather = test::weather_csv(first, record_until - first + 1);
  f.farm["weather_so_far"] = {{"file", "seen.csv"}};
  f.others["seen.csv"] = test::weather_csv(seen_from, seen_days);
  return f;
}

}  // namespace

TEST_CASE("every day moves a year on, and the new folder reads", "[identity]") {
  const Scratch s{"next_days"};
  FarmFiles f = test::small_farm();
  f.farm["as_of"] = "2026-10-01";
  f.farm["field_values"] = {{{"id", "B"}, {"late_curve", {{{"day", "2027-05-20"}, {"loss", "0 kg/ha"}}}}}};
  const farm::Problem was = test::sound(f);
  REQUIRE(next_of(s, f).ok());
  const farm::Problem now = read_next(s);
  CHECK(now.farm.season.first ==
        make_date(2027, month_of(was.farm.season.first), day_of_month(was.farm.season.first)));
  CHECK(now.as_of == now.farm.season.first);
  REQUIRE(now.farm.fields.size() == was.farm.fields.size());
  for (std::size_t k = 0; k < was.farm.fields.size(); ++k) {
    const farm::Field &a = was.farm.fields[k], &b = now.farm.fields[k];
    CHECK(b.id == a.id);
    CHECK_FALSE(b.cut);
    CHECK(b.harvest == a.harvest + 365);
    CHECK(b.next.planting == a.next.planting + 366);  // 29 February 2028 lies before it
    CHECK(b.area == a.area);
    CHECK(b.history.empty());
  }
  CHECK(document(s)["field_values"][1]["late_curve"][0]["day"] == "2028-05-20");
}

TEST_CASE("29 February becomes 28 February", "[identity]") {
  const Scratch s{"next_leap"};
  FarmFiles f = test::small_farm();
  f.farm["operators"][0]["away"] = {{{"from", "2028-02-29"}, {"to", "2028-03-02"}}};
  const auto made = next_of(s, f);
  REQUIRE(made.ok());
  CHECK(document(s)["operators"][0]["away"][0]["from"] == "2029-02-28");
  CHECK(noted(made.value(), "operators " + f.farm["operators"][0]["id"].get<std::string>()));
}

TEST_CASE("a season into which a leap day falls is no longer than a season can be", "[identity]") {
  struct Row {
    const char* first;
    const char* last;
    int days;  ///< instead of last; 0: last is told
    const char* next_last;
    bool told;
  };
  const std::vector<Row> rows{
      {"2026-09-01", "2027-08-31", 0, "2028-08-30", true},     // 365 days, and a leap day
      {"2026-09-01", "2027-08-31", 365, "2028-08-30", true},   //
      {"2026-09-01", "2027-08-30", 0, "2028-08-30", false},    // 364 days become 365
      {"2026-09-01", "2027-08-30", 364, "2028-08-30", false},  //
      {"2027-09-01", "2028-08-30", 365, "2029-08-31", false},  // the leap day is in this one
      {"2026-02-28", "2027-02-27", 0, "2028-02-27", false},    // 29 February 2028 is behind it
      {"2027-02-28", "2028-02-27", 0, "2029-02-26", true},     //
      {"2026-03-01", "2027-02-28", 0, "2028-02-28", false}};
  for (const Row& row : rows) {
    INFO(row.first << " to " << row.last << ", days " << row.days);
    const Scratch s{"next_length"};
    FarmFiles f = test::small_farm();
    const Date first = *parse_iso_date(row.first), last = *parse_iso_date(row.last);
    f.weather = test::weather_csv(make_date(2015, 1, 1), 4000);
    f.farm["as_of"] = row.first;
    f.farm["season"] = {{"first", row.first}, {"planting_date", iso(last)}, {"cut_off", iso(last)}};
    f.farm["season"]["late_curve"] = {{{"day", iso(last - 1)}, {"loss", "0 kg/ha"}},
                                      {{"day", iso(last)}, {"loss", "20 kg/ha"}}};
    f.farm["season"][row.days > 0 ? "days" : "last"] = row.days > 0 ? Json(row.days) : Json(row.last);
    for (const char* id : {"A", "B", "C"}) {
      test::field(f, id)["harvest"] = iso(first + 40);
      test::field(f, id)["cut"] = false;
    }
    f.farm["field_values"] = {{{"id", "B"}, {"cut_off", iso(last)}}};
    const farm::Problem was = test::sound(f);
    REQUIRE(was.farm.season.date(was.farm.season.days - 1) == last);
    const auto made = next_of(s, f);
    REQUIRE(made.ok());
    const farm::Problem now = read_next(s);
    CHECK(now.farm.season.days <= 365);
    CHECK(iso(now.farm.season.date(now.farm.season.days - 1)) == row.next_last);
    CHECK(now.farm.season.first == next_on({month_of(first), day_of_month(first)}, first + 360));
    CHECK(noted(made.value(), "a day earlier") == row.told);
  }
}

TEST_CASE("what held for one season stays behind, whether column or entry", "[identity]") {
  const Scratch s{"next_once"};
  FarmFiles f = test::small_farm();
  test::field(f, "A")["disease_finding"] = true;
  test::field(f, "A")["burn_answer"] = "call on the day";
  test::field(f, "A")["ground"] = "rutted";
  test::field(f, "A")["ground_share_percent"] = 30;
  test::field(f, "A")["rut_depth_cm"] = 9;
  test::field(f, "B")["locked"] = "leave";
  f.farm["field_values"] = {
      {{"id", "B"},
       {"not_allowed", {{{"method", "burn"}, {"why", "the landlord"}}}},
       {"lease", {{"from", "2026-11-20"}, {"until", "2027-01-31"}, {"pays", "60 USD/ha"}}},
       {"disease_samples", {{{"disease", "stem rot"}, {"share", "20 %"}}}}}};
  const farm::Problem was = test::sound(f);
  REQUIRE(test::field_of(was, "A").disease_finding == true);
  const auto made = next_of(s, f);
  REQUIRE(made.ok());
  CHECK(noted(made.value(), "field B: the water lease"));
  const farm::Problem now = read_next(s);
  const farm::Field &a = test::field_of(now, "A"), &b = test::field_of(now, "B");
  CHECK_FALSE(a.disease_finding.has_value());
  CHECK_FALSE(a.burn_answer.has_value());
  CHECK(a.ground.state == farm::GroundState::firm);
  CHECK(a.ground.share == 0.0);
  CHECK(a.ground.depth_mm == 0.0);
  CHECK_FALSE(b.locked.has_value());
  CHECK_FALSE(b.lease.has_value());
  REQUIRE(b.not_allowed.size() == 1);
  CHECK(b.not_allowed[0].why == "the landlord");
}

TEST_CASE("history grows by a line a season", "[identity]") {
  const Scratch s{"next_history"};
  FarmFiles f = test::small_farm();
  f.farm["field_values"] = {
      {{"id", "A"}, {"history", {{{"season", 2025}, {"method", "burn"}, {"burned", true}}}}}};
  const std::vector<farm::FieldGone> gone{
      {FieldId{"A"}, {2026, "bale", false, KgPerHa{9100.0}, make_date(2027, 4, 20)}},
      {FieldId{"C"}, {2026, "", false, std::nullopt, std::nullopt}}};
  REQUIRE(next_of(s, f, gone).ok());
  const farm::Problem now = read_next(s);
  CHECK(test::field_of(now, "A").history ==
        std::vector<farm::PastSeason>{{2025, "burn", true, std::nullopt, std::nullopt}, gone[0].season});
  CHECK(test::field_of(now, "B").history.empty());
  CHECK(test::field_of(now, "C").history == std::vector<farm::PastSeason>{gone[1].season});
}

TEST_CASE("the season's weather goes into the record where no day is missing", "[identity]") {
  const Scratch s{"next_weather"};
  const Date seen_from = make_date(2026, 8, 20);
  const FarmFiles f = with_weather_so_far(make_date(2026, 8, 31), seen_from, 340);
  const auto made = next_of(s, f);
  REQUIRE(made.ok());
  const std::string text = read_file(s.path / "next" / "weather.csv").value();
  const std::string seen = f.others.at("seen.csv");
  const std::size_t on = seen.find("2026-09-01");
  REQUIRE(on != std::string::npos);
  CHECK(text == f.weather + seen.substr(on));
  CHECK_FALSE(document(s).contains("weather_so_far"));
  CHECK(read_next(s).years.years.size() == test::sound(f).years.years.size() + 1);
  CHECK(std::ranges::count(made.value().files, s.path / "next" / "weather.csv") == 1);
}

TEST_CASE("weather that does not follow on the record is left out and told", "[identity]") {
  struct Case {
    const char* name;
    FarmFiles farm;
    const char* why;
  };
  FarmFiles other_columns = with_weather_so_far(make_date(2026, 8, 31), make_date(2026, 9, 1), 300);
  std::string& seen = other_columns.others["seen.csv"];
  seen.replace(seen.find("rain_mm"), 7, "rain_in");
  const std::vector<Case> cases{
      {"gap", with_weather_so_far(make_date(2026, 8, 10), make_date(2026, 8, 20), 300),
       "the days from 2026-08-11 to 2026-08-19 are in neither"},
      {"there", with_weather_so_far(make_date(2027, 8, 31), make_date(2026, 9, 1), 300), "already"},
      {"columns", other_columns, "their columns differ"}};
  for (const Case& c : cases) {
    INFO(c.name);
    const Scratch s{std::string{"next_no_"} + c.name};
    const auto made = next_of(s, c.farm);
    REQUIRE(made.ok());
    CHECK(noted(made.value(), c.why));
    CHECK(read_file(s.path / "next" / "weather.csv").value() == c.farm.weather);
    CHECK(read_next(s).years.years.size() == test::sound(c.farm).years.years.size());
  }
}

TEST_CASE("files outside the folder are named from the new one; nothing is overwritten", "[identity]") {
  const Scratch s{"next_files"};
  FarmFiles f = test::small_farm();
  std::filesystem::create_directories(s.path / "shared");
  std::ignore = s.file("shared/record.csv", f.weather);
  f.farm["weather"]["file"] = "../shared/record.csv";
  std::filesystem::create_directories(s.path / "farm");
  const auto to = s.path / "seasons" / "2027";
  const auto from = write_farm(s, f);
  REQUIRE(farm::next_season({.from = from, .to = to, .fields = {}}).ok());
  const auto read = farm::read(to, {});
  INFO(test::all_text(read.issues()));
  CHECK(read.ok());
  CHECK_FALSE(std::filesystem::exists(to / "record.csv"));
  CHECK_FALSE(std::filesystem::exists(to / "journal.jsonl"));
  const std::string before = read_file(to / "farm.json").value();
  const auto again = farm::next_season({.from = from, .to = to, .fields = {}});
  REQUIRE_FALSE(again.ok());
  CHECK(again.issues().size() == 1);
  CHECK(again.issues()[0].file == (to / "farm.json").string());
  CHECK(read_file(to / "farm.json").value() == before);
}

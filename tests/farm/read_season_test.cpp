// Seasons, late curves and weather years of sound farms.

#include <cmath>

#include "catch2/catch.hpp"
#include "rows.hpp"
#include "scratch.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::test;

TEST_CASE("the late curve where none is entered", "[published]") {
  FarmFiles files = small_farm();
  field(files, "B")["planting_date"] = "2027-05-12";
  field(files, "C")["next_use"] = "fallow";
  const farm::Problem p = sound(files);
  const auto& a = field_of(p, "A").next.late_curve;
  REQUIRE(a.size() == 2);
  CHECK(a[0].day == make_date(2027, 5, 1));
  CHECK(field_of(p, "B").next.late_curve[0].day == make_date(2027, 5, 12));
  CHECK(field_of(p, "C").next.late_curve.empty());
  const double thirty_days = a[1].loss_kg_per_ha * 30 / (a[1].day - a[0].day);
  check({{"loss of planting at the end instead of the start of May [kg/ha]",
          "UCCE2023 5 cwt/acre; kept as 19 kg/ha a day", Kind::published, 560.0, thirty_days, 15.0}});
}

TEST_CASE("weather years, their limits, and a record too short for a season", "[regression]") {
  const farm::Problem p = sound(small_farm());
  REQUIRE(p.years.years.size() == 2);
  CHECK(p.years.years[0].year == 2020);
  CHECK(p.years.years[0].days.size() == 288);
  CHECK(p.years.years[0].days[0].rain_mm == Approx(4.0));
  farm::ReadOptions one;
  one.years_from = 2021;
  CHECK(sound(small_farm(), one).years.years.size() == 1);
  FarmFiles brief = small_farm();
  brief.weather = weather_csv(make_date(2020, 9, 1), 60);
  CHECK(sound(brief).years.years.empty());
}

TEST_CASE("Fahrenheit and inches by mapping are the same weather", "[identity]") {
  FarmFiles files = small_farm();
  files.weather = "DAY,LO,HI,PRCP\n";
  for (int d = 0; d < 300; ++d)
    files.weather += iso(make_date(2020, 9, 1) + d) + (d % 5 == 0 ? ",42.8,60.8,0.15748\n" : ",41,64.4,0\n");
  files.farm["weather"]["columns"] = Json::parse(
      R"({"date": "DAY", "tmin": {"column": "LO", "unit": "degF"}, "tmax": {"column": "HI", "unit": "degF"}, "rain": {"column": "PRCP", "unit": "in"}})");
  const farm::Problem p = sound(files), q = sound(small_farm());
  REQUIRE(p.years.years.size() == 1);
  for (int d : {0, 1}) {
    const auto& x = p.years.years[0].days[static_cast<std::size_t>(d)];
    const auto& y = q.years.years[0].days[static_cast<std::size_t>(d)];
    CHECK(x.tmin_c == Approx(y.tmin_c));
    CHECK(x.tmax_c == Approx(y.tmax_c));
    CHECK(x.rain_mm == Approx(y.rain_mm).epsilon(1e-5));
  }
}

TEST_CASE("forecast days stand in front of every year", "[identity]") {
  FarmFiles files = small_farm();
  files.farm["forecast"] = {{"file", "forecast.csv"}};
  files.others["forecast.csv"] = "date,tmin_c,tmax_c,rain_mm\n2026-09-26,10,20,33\n2026-09-27,10,20,0\n";
  const farm::Problem p = sound(files);
  for (const auto& y : p.years.years) CHECK(y.days[25].rain_mm == Approx(33.0));
}

TEST_CASE("as_of: the command line before farm.json before the season's start", "[regression]") {
  FarmFiles files = small_farm();
  farm::ReadOptions later;
  later.as_of = make_date(2026, 11, 1);
  CHECK(sound(files, later).as_of == make_date(2026, 11, 1));
  files.farm.erase("as_of");
  CHECK(sound(files).as_of == make_date(2026, 9, 1));
  later.as_of = make_date(2030, 1, 1);
  CHECK(says(read_farm(files, later).issues(), "command line"));
}

TEST_CASE("a farm south of the equator", "[regression]") {
  FarmFiles files = small_farm();
  files.farm["site"]["latitude_deg"] = -35.0;
  files.farm["site"]["longitude_deg"] = 145.9;
  files.farm["season"] = {{"first", "2026-03-15"}, {"last", "2027-01-10"}, {"planting_date", "2026-10-25"}};
  files.farm["as_of"] = "2026-04-20";
  for (Json& f : files.fields["features"]) {
    f["properties"]["harvest"] = "2026-04-15";
    for (Json& point : f["geometry"]["coordinates"][0])
      point = {point[0].get<double>() + 267.8, point[1].get<double>() - 74.4};
  }
  const farm::Problem p = sound(files);
  CHECK(p.farm.fields[0].next.late_curve[0].day == make_date(2026, 11, 1));
  CHECK(p.farm.fields[0].next.cut_off == make_date(2026, 11, 25));
  CHECK(p.years.years.size() == 1);
}

TEST_CASE("with a planting rate fields are due one after the other in their order", "[identity]") {
  FarmFiles files = small_farm();
  field(files, "A")["planting_order"] = 3;
  field(files, "B")["planting_order"] = 1;
  field(files, "C")["planting_order"] = 2;
  const farm::Problem together = sound(files);
  const Date first = field_of(together, "B").next.planting;
  CHECK(field_of(together, "A").next.planting == first);
  files.farm["season"]["planting_rate"] = "10 ha/day";
  const farm::Problem p = sound(files);
  const auto days_of = [&](double ha) { return static_cast<int>(std::floor(ha / 10.0)); };
  const double b = field_of(p, "B").area.value(), c = field_of(p, "C").area.value();
  CHECK(field_of(p, "B").next.planting == first);
  CHECK(field_of(p, "C").next.planting == first + days_of(b));
  CHECK(field_of(p, "A").next.planting == first + days_of(b + c));
  field(files, "A")["planting_date"] = iso(first);
  CHECK(field_of(sound(files), "A").next.planting == first);
  files.farm["season"].erase("planting_rate");
  files.farm["season"]["planting_rate_acre_per_day"] = 24.710538146716535;
  CHECK(field_of(sound(files), "C").next.planting == first + days_of(b));
}

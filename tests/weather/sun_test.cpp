#include "aftercut/weather/sun.hpp"

#include "aftercut/weather/evapotranspiration.hpp"
#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::weather;
using test::Kind;

namespace {

constexpr double kMinute = 0.1;  // the rows are given to a tenth of a minute
const Site kValley{39.2, -122.0, 20.0, -8.0, false};

Date of_common_year(int day_of_year_2001) { return make_date(2001, 1, 1) + (day_of_year_2001 - 1); }
double clock(int hour, double minute) { return 60.0 * hour + minute; }

}  // namespace

TEST_CASE("Sunrise, sunset and length at 39.2 N 122 W", "[derived]") {
  const SunTimes a = sun_times(kValley, of_common_year(80)), b = sun_times(kValley, of_common_year(172));
  const SunTimes c = sun_times(kValley, of_common_year(288)), d = sun_times(kValley, of_common_year(355));
  const char* source = "NOAAsolar, our arithmetic";
  test::check({
      {"sunrise, day 80", source, Kind::derived, clock(6, 11.8), a.sunrise_min, kMinute},
      {"sunset, day 80", source, Kind::derived, clock(18, 19.9), a.sunset_min, kMinute},
      {"length, day 80 [h]", source, Kind::derived, 12.136, a.length_h, 0.001},
      {"sunrise, day 172", source, Kind::derived, clock(4, 41.4), b.sunrise_min, kMinute},
      {"sunset, day 172", source, Kind::derived, clock(19, 37.2), b.sunset_min, kMinute},
      {"length, day 172 [h]", source, Kind::derived, 14.930, b.length_h, 0.001},
      {"sunrise, day 288", source, Kind::derived, clock(6, 16.3), c.sunrise_min, kMinute},
      {"sunset, day 288", source, Kind::derived, clock(17, 30.9), c.sunset_min, kMinute},
      {"length, day 288 [h]", source, Kind::derived, 11.244, c.length_h, 0.001},
      {"sunrise, day 355", source, Kind::derived, clock(7, 23.6), d.sunrise_min, kMinute},
      {"sunset, day 355", source, Kind::derived, clock(16, 48.1), d.sunset_min, kMinute},
      {"length, day 355 [h]", source, Kind::derived, 9.408, d.length_h, 0.001},
      // Noon = 720 - 4 longitude - equation of time, with the equation of time of the same table.
      {"noon, day 288", source, Kind::derived, 720.0 + 488.0 - 14.406 - 480.0, c.noon_min, 0.01},
  });
}

TEST_CASE("Noon lies in the middle and the two lengths differ by refraction alone", "[identity]") {
  for (int j = 1; j <= 365; j += 7) {
    const SunTimes t = sun_times(kValley, of_common_year(j));
    CHECK(t.noon_min == Approx(0.5 * (t.sunrise_min + t.sunset_min)));
    CHECK(t.length_h == Approx((t.sunset_min - t.sunrise_min) / 60.0));
    const double longer_min = 60.0 * (t.length_h - daylight_hours(kValley.latitude_deg, j).value());
    CHECK(longer_min > 5.0);
    CHECK(longer_min < 22.0);
  }
}

TEST_CASE("East rises first, the time zone shifts the clock, the south has the other season", "[identity]") {
  const Date june = make_date(2026, 6, 21);
  Site east = kValley, zone = kValley, south = kValley;
  east.longitude_deg += 1.0;
  zone.utc_offset_h += 1.0;
  south.latitude_deg = -39.2;
  const SunTimes here = sun_times(kValley, june);
  CHECK(sun_times(east, june).sunrise_min == Approx(here.sunrise_min - 4.0));
  CHECK(sun_times(zone, june).sunset_min == Approx(here.sunset_min + 60.0));
  CHECK(sun_times(south, june).length_h < 10.0);
  CHECK(sun_times(south, make_date(2026, 12, 21)).length_h == Approx(here.length_h).margin(0.05));
}

TEST_CASE("Polar day and night have no sunrise", "[identity]") {
  const Site arctic{78.0, 15.0, 0.0, 1.0, false};
  const SunTimes summer = sun_times(arctic, make_date(2026, 6, 21));
  const SunTimes winter = sun_times(arctic, make_date(2026, 12, 21));
  CHECK(summer.length_h == 24.0);
  CHECK(winter.length_h == 0.0);
  CHECK(summer.sunrise_min == summer.noon_min);
  CHECK(winter.sunset_min == winter.noon_min);
}

TEST_CASE("A leap year keeps the calendar within a minute and a half", "[identity]") {
  const SunTimes common = sun_times(kValley, make_date(2026, 10, 15));
  const SunTimes leap = sun_times(kValley, make_date(2024, 10, 15));
  CHECK(leap.sunrise_min == Approx(common.sunrise_min).margin(1.5));
  CHECK(leap.sunrise_min != common.sunrise_min);
}

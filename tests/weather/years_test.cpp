#include <optional>

#include "aftercut/weather/evapotranspiration.hpp"
#include "aftercut/weather/series.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::weather;

namespace {

const Site kSite{39.2, -140.0, 20.0, -9.0, false};

// Each day's rain says which day it is: its number since 1970.
Series numbered(Date first, Date last) {
  Series series{first, {}, {}};
  for (Date date = first; date <= last; date = date + 1) {
    series.days.push_back({8.0, 22.0, static_cast<double>(date.days()), 0.9, 2.0, 15.0});
  }
  return series;
}

Date day_of(const Day& day) { return Date{static_cast<int>(day.rain_mm)}; }

std::vector<int> years_of(const Years& years) {
  std::vector<int> list;
  for (const Year& year : years.years) list.push_back(year.year);
  return list;
}

}  // namespace

TEST_CASE("Season day d is the first day plus d, over leap days too", "[identity]") {
  const Series series = numbered(make_date(1998, 1, 1), make_date(2005, 12, 31));
  const Date first = make_date(2026, 9, 1);
  const Years laid = lay_on_season(series, kSite, first, 300, std::nullopt, std::nullopt);
  CHECK(laid.season_first == first);
  CHECK(years_of(laid) == std::vector<int>{1998, 1999, 2000, 2001, 2002, 2003, 2004});
  for (const Year& year : laid.years) {
    REQUIRE(year.days.size() == 300);
    REQUIRE(year.et0_mm.size() == 300);
    CHECK(day_of(year.days[0]) == make_date(year.year, 9, 1));
    CHECK(day_of(year.days[299]) == make_date(year.year, 9, 1) + 299);
  }
  CHECK(day_of(laid.years[1].days[181]) == make_date(2000, 2, 29));
  CHECK(day_of(laid.years[0].days[181]) == make_date(1999, 3, 1));
}

TEST_CASE("Start years are kept within the limits given", "[identity]") {
  const Series series = numbered(make_date(1998, 1, 1), make_date(2005, 12, 31));
  const Date first = make_date(2026, 9, 1);
  CHECK(years_of(lay_on_season(series, kSite, first, 300, 2000, 2002)) == std::vector<int>{2000, 2001, 2002});
  CHECK(years_of(lay_on_season(series, kSite, first, 300, 2003, std::nullopt)) ==
        std::vector<int>{2003, 2004});
  CHECK(years_of(lay_on_season(series, kSite, first, 300, std::nullopt, 1990)).empty());
}

TEST_CASE("A record must cover the whole season", "[identity]") {
  const Date first = make_date(2026, 9, 1);
  const Date begin = make_date(2010, 9, 1);
  const auto laid = [&](Date from, Date to) {
    return lay_on_season(numbered(from, to), kSite, first, 240, std::nullopt, std::nullopt).years.size();
  };
  CHECK(laid(begin, begin + 239) == 1);
  CHECK(laid(begin, begin + 238) == 0);
  CHECK(laid(begin + 1, begin + 239) == 0);
  CHECK(lay_on_season(Series{}, kSite, first, 240, std::nullopt, std::nullopt).years.empty());
  CHECK_THROWS_AS(lay_on_season(Series{}, kSite, first, 0, std::nullopt, std::nullopt), InternalError);
}

TEST_CASE("A season from 29 February starts on the 28th in common years", "[identity]") {
  const Series series = numbered(make_date(2003, 1, 1), make_date(2004, 12, 31));
  const Years laid = lay_on_season(series, kSite, make_date(2024, 2, 29), 100, std::nullopt, std::nullopt);
  REQUIRE(laid.years.size() == 2);
  CHECK(day_of(laid.years[0].days[0]) == make_date(2003, 2, 28));
  CHECK(day_of(laid.years[1].days[0]) == make_date(2004, 2, 29));
}

TEST_CASE("Demand of a day is that of its own date, on either side of the equator", "[identity]") {
  const Series series = numbered(make_date(2010, 1, 1), make_date(2012, 12, 31));
  Site south = kSite;
  south.latitude_deg = -35.0;
  for (const Site& site : {kSite, south}) {
    const Years laid = lay_on_season(series, site, make_date(2026, 4, 15), 260, std::nullopt, std::nullopt);
    REQUIRE(laid.years.size() == 3);
    for (const std::size_t d : {std::size_t{0}, std::size_t{77}, std::size_t{259}}) {
      const int j = day_of_year(make_date(2011, 4, 15) + static_cast<int>(d));
      CHECK(laid.years[1].et0_mm[d] == penman_monteith(laid.years[1].days[d], site, j).value());
    }
  }
}

TEST_CASE("The forecast takes the place of its days in every year", "[identity]") {
  const Date first = make_date(2026, 9, 1);
  Years laid = lay_on_season(numbered(make_date(2000, 1, 1), make_date(2004, 12, 31)), kSite, first, 120,
                             std::nullopt, std::nullopt);
  const Years before = laid;
  Series forecast{first - 2, {}, {}};
  for (int d = 0; d < 5; ++d) forecast.days.push_back({10.0, 35.0, 7.0 + d, 0.8, 4.0, 20.0});
  put_forecast_in_front(laid, forecast, kSite);
  for (std::size_t y = 0; y < laid.years.size(); ++y) {
    const Year& year = laid.years[y];
    CHECK(year.days.size() == 120);
    CHECK(year.days[0].rain_mm == 9.0);  // the third forecast day
    CHECK(year.days[2].rain_mm == 11.0);
    CHECK(year.days[3].rain_mm == before.years[y].days[3].rain_mm);
    CHECK(year.et0_mm[0] == penman_monteith(forecast.days[2], kSite, day_of_year(first)).value());
    CHECK(year.et0_mm[3] == before.years[y].et0_mm[3]);
  }
}

TEST_CASE("Forecast days outside the season change nothing", "[identity]") {
  const Date first = make_date(2026, 9, 1);
  Years laid = lay_on_season(numbered(make_date(2000, 1, 1), make_date(2001, 12, 31)), kSite, first, 60,
                             std::nullopt, std::nullopt);
  const Years before = laid;
  for (const Date date : {first - 3, first + 60}) {
    put_forecast_in_front(laid, Series{date, std::vector<Day>(3), {}}, kSite);
  }
  for (std::size_t y = 0; y < laid.years.size(); ++y) {
    for (std::size_t d = 0; d < 60; ++d)
      CHECK(laid.years[y].days[d].rain_mm == before.years[y].days[d].rain_mm);
  }
}

#include "aftercut/weather/fit_generator.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <span>
#include <vector>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/weather/evapotranspiration.hpp"

namespace aftercut::weather {
namespace {

constexpr double least_wet_mm = 0.2;  // as the generator draws them. Source: DavisFit (fitted)
// Wet days of a month below which the whole year's stand in. Source: FittedGenerator (assumed)
constexpr std::size_t least_wet_days = 10;
constexpr int trial_years = 400, trial_rounds = 4;  // of the yearly factor
constexpr std::uint64_t trial_seed = 1;
constexpr double most_log_sd = 1.5;  // the parameter file's end
constexpr int first_label = 2101;

/// The temperature at which air with this vapour pressure is saturated: eq. 11 turned round.
double dew_point_c(double ea_kpa) {
  const double x = std::log(std::max(ea_kpa, 1e-4) / 0.6108) / 17.27;
  return 237.3 * x / (1.0 - x);
}

/// One month's days of the whole record.
struct MonthDays {
  std::vector<double> tmax, tmin, solar, below, wind, wet_mm;
  std::vector<char> wet;
  double after_dry = 0.0, wet_after_dry = 0.0, after_wet = 0.0, wet_after_wet = 0.0;
};

std::array<MonthDays, 12> by_month(const Series& record) {
  std::array<MonthDays, 12> months;
  for (std::size_t k = 0; k < record.days.size(); ++k) {
    const Day& day = record.days[k];
    MonthDays& m = months[static_cast<std::size_t>(month_of(record.first + static_cast<int>(k)) - 1)];
    const bool wet = day.rain_mm >= least_wet_mm;
    m.wet.push_back(wet ? 1 : 0);
    m.tmax.push_back(day.tmax_c);
    m.tmin.push_back(day.tmin_c);
    m.solar.push_back(day.solar_mj_m2);
    m.below.push_back(day.tmin_c - dew_point_c(day.ea_kpa));
    m.wind.push_back(day.wind_2m_m_s);
    if (wet) m.wet_mm.push_back(day.rain_mm);
    if (k == 0) continue;
    const bool wet_before = record.days[k - 1].rain_mm >= least_wet_mm;
    (wet_before ? m.after_wet : m.after_dry) += 1.0;
    if (wet) (wet_before ? m.wet_after_wet : m.wet_after_dry) += 1.0;
  }
  return months;
}

/// Means of dry and of wet days; a kind without days has the other's.
struct DryWet {
  double dry = 0.0, wet = 0.0;
};
DryWet means_by_wetness(const std::vector<double>& values, const std::vector<char>& wet) {
  double sum[2] = {0.0, 0.0}, count[2] = {0.0, 0.0};
  for (std::size_t k = 0; k < values.size(); ++k) {
    const std::size_t kind = wet[k] ? 1 : 0;
    sum[kind] += values[k];
    count[kind] += 1.0;
  }
  const double all = (sum[0] + sum[1]) / std::max(count[0] + count[1], 1.0);
  return {count[0] > 0.0 ? sum[0] / count[0] : all, count[1] > 0.0 ? sum[1] / count[1] : all};
}

/// Standard deviation about the kind's mean; as a share of that mean where `share`.
double spread_about(const std::vector<double>& values, const std::vector<char>& wet, const DryWet& means,
                    bool share) {
  double sum = 0.0;
  for (std::size_t k = 0; k < values.size(); ++k) {
    const double m = wet[k] ? means.wet : means.dry;
    const double off = share ? (m > 0.0 ? values[k] / m - 1.0 : 0.0) : values[k] - m;
    sum += off * off;
  }
  return std::sqrt(sum / std::max(static_cast<double>(values.size()) - 2.0, 1.0));
}

/// Shape and scale of the amounts by the likelihood's usual approximation. Source: Thom1958 (recalled)
void put_amounts(MonthClimate& c, const std::vector<double>& wet_mm) {
  const double m = std::max(mean(wet_mm), least_wet_mm);
  double logs = 0.0;
  for (const double x : wet_mm) logs += std::log(x);
  const double a = std::log(m) - logs / static_cast<double>(wet_mm.size());
  const double shape = a > 1e-6 ? (1.0 + std::sqrt(1.0 + 4.0 * a / 3.0)) / (4.0 * a) : 20.0;
  c.gamma_shape = std::clamp(shape, 0.05, 20.0);
  c.gamma_scale_mm = std::clamp(m / c.gamma_shape, 0.01, 200.0);
}

void put_chain(MonthClimate& c, const MonthDays& m, double yearly_wet_after_wet) {
  c.p_wet_after_dry = m.after_dry > 0.0 ? m.wet_after_dry / m.after_dry : 0.0;
  const bool enough = m.after_wet >= static_cast<double>(least_wet_days);
  c.p_wet_after_wet = std::min(enough ? m.wet_after_wet / m.after_wet : yearly_wet_after_wet, 0.99);
}

MonthClimate climate_of(const MonthDays& m) {
  MonthClimate c;
  const DryWet tmax = means_by_wetness(m.tmax, m.wet), tmin = means_by_wetness(m.tmin, m.wet);
  const DryWet solar = means_by_wetness(m.solar, m.wet), below = means_by_wetness(m.below, m.wet);
  c.tmax_c = mean(m.tmax);
  c.tmin_c = mean(m.tmin);
  c.tmax_sd_c = spread_about(m.tmax, m.wet, tmax, false);
  c.tmin_sd_c = spread_about(m.tmin, m.wet, tmin, false);
  c.wet_day_tmax_shift_c = tmax.wet - tmax.dry;
  c.wet_day_tmin_shift_c = tmin.wet - tmin.dry;
  c.solar_mj_m2 = mean(m.solar);
  c.solar_sd_share = spread_about(m.solar, m.wet, solar, true);
  c.wet_day_solar_share = solar.dry > 0.0 ? std::clamp(solar.wet / solar.dry, 0.05, 1.5) : 1.0;
  c.dewpoint_below_tmin_c = below.dry;
  c.dewpoint_sd_c = spread_about(m.below, m.wet, below, false);
  c.wet_day_dewpoint_rise_c = below.dry - below.wet;
  c.wind_m_s = mean(m.wind);
  c.wind_sd_share = c.wind_m_s > 0.0 ? deviation(m.wind) / c.wind_m_s : 0.0;
  return c;
}

/// Rain of each whole October-to-September year.
std::vector<double> water_years(Date first, const std::vector<double>& rain_mm) {
  std::map<int, std::pair<double, int>> sums;
  for (std::size_t k = 0; k < rain_mm.size(); ++k) {
    const Date day = first + static_cast<int>(k);
    auto& [mm, days] = sums[year_of(day) + (month_of(day) >= 10 ? 1 : 0)];
    mm += rain_mm[k];
    ++days;
  }
  std::vector<double> whole;
  for (const auto& [year, sum] : sums)
    if (sum.second >= 365) whole.push_back(sum.first);
  return whole;
}

double variation_of(const std::vector<double>& years) {
  const double m = mean(years);
  return m > 0.0 ? deviation(years) / m : 0.0;
}

/// Spread of yearly rain over its mean, in invented years.
double invented_variation(const GeneratorParameters& p) {
  const std::vector<Row> rows = generate(p, p.site, first_label, trial_years, trial_seed);
  std::vector<double> rain;
  for (const Row& r : rows) rain.push_back(r.rain_mm.value_or(0.0));
  return variation_of(water_years(rows.front().date, rain));
}

/// The factor that gives the record's spread between years: what the chain alone lacks, then a few
/// corrections.
double yearly_factor(GeneratorParameters p, double wanted) {
  p.yearly_log_sd = 0.0;
  const double alone = invented_variation(p);
  if (wanted <= alone) return 0.0;
  double missing = std::log1p(wanted * wanted - alone * alone);
  for (int round = 0; round < trial_rounds; ++round) {
    p.yearly_log_sd = std::min(std::sqrt(missing), most_log_sd);
    const double got = invented_variation(p);
    const double over = got * got - alone * alone;
    if (over <= 0.0) break;
    missing *= (wanted * wanted - alone * alone) / over;
  }
  return std::min(std::sqrt(missing), most_log_sd);
}

}  // namespace

std::optional<GeneratorParameters> fit_generator(const Series& record, const Site& site) {
  std::vector<double> rain;
  for (const Day& day : record.days) rain.push_back(day.rain_mm);
  const std::vector<double> years = water_years(record.first, rain);
  if (static_cast<int>(years.size()) < least_fit_years) return std::nullopt;
  const auto months = by_month(record);
  MonthDays all;
  for (const MonthDays& m : months) {
    all.wet_mm.insert(all.wet_mm.end(), m.wet_mm.begin(), m.wet_mm.end());
    all.after_wet += m.after_wet;
    all.wet_after_wet += m.wet_after_wet;
  }
  if (all.wet_mm.empty()) all.wet_mm.push_back(least_wet_mm);
  const double wet_after_wet = all.after_wet > 0.0 ? all.wet_after_wet / all.after_wet : 0.0;
  GeneratorParameters p;
  p.site = site;
  for (std::size_t m = 0; m < months.size(); ++m) {
    p.months[m] = climate_of(months[m]);
    put_chain(p.months[m], months[m], wet_after_wet);
    put_amounts(p.months[m], months[m].wet_mm.size() < least_wet_days ? all.wet_mm : months[m].wet_mm);
  }
  p.yearly_log_sd = yearly_factor(p, variation_of(years));
  return p;
}

Years invented_years(const GeneratorParameters& p, const Site& site, Date season_first, int season_days,
                     int count, std::uint64_t seed) {
  // Days from September to September: one year more at each end than seasons.
  const std::vector<Row> rows = generate(p, site, first_label - 1, count + 2, seed);
  const auto series = complete(rows, site, {}, "invented weather");
  require(series.ok(), "invented weather has no gaps");
  Years years =
      lay_on_season(series.value(), site, season_first, season_days, first_label, first_label + count - 1);
  require(static_cast<int>(years.years.size()) == count, "every invented year holds a season");
  return years;
}

}  // namespace aftercut::weather

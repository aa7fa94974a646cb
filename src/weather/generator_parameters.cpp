#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <nlohmann/json.hpp>

#include "aftercut/weather/generator.hpp"

namespace aftercut::weather {
namespace {

using nlohmann::json;

template <class Owner>
struct Key {
  const char* name;
  double Owner::*member;
  double least;
  double most;
};

constexpr std::array kMonthKeys{
    Key<MonthClimate>{"p_wet_after_dry", &MonthClimate::p_wet_after_dry, 0.0, 1.0},
    Key<MonthClimate>{"p_wet_after_wet", &MonthClimate::p_wet_after_wet, 0.0, 0.99},
    Key<MonthClimate>{"gamma_shape", &MonthClimate::gamma_shape, 0.05, 20.0},
    Key<MonthClimate>{"gamma_scale_mm", &MonthClimate::gamma_scale_mm, 0.01, 200.0},
    Key<MonthClimate>{"tmax_c", &MonthClimate::tmax_c, -60.0, 60.0},
    Key<MonthClimate>{"tmin_c", &MonthClimate::tmin_c, -60.0, 60.0},
    Key<MonthClimate>{"tmax_sd_c", &MonthClimate::tmax_sd_c, 0.0, 15.0},
    Key<MonthClimate>{"tmin_sd_c", &MonthClimate::tmin_sd_c, 0.0, 15.0},
    Key<MonthClimate>{"wet_day_tmax_shift_c", &MonthClimate::wet_day_tmax_shift_c, -20.0, 20.0},
    Key<MonthClimate>{"wet_day_tmin_shift_c", &MonthClimate::wet_day_tmin_shift_c, -20.0, 20.0},
    Key<MonthClimate>{"solar_mj_m2", &MonthClimate::solar_mj_m2, 0.0, 45.0},
    Key<MonthClimate>{"solar_sd_share", &MonthClimate::solar_sd_share, 0.0, 1.0},
    Key<MonthClimate>{"wet_day_solar_share", &MonthClimate::wet_day_solar_share, 0.05, 1.5},
    Key<MonthClimate>{"dewpoint_below_tmin_c", &MonthClimate::dewpoint_below_tmin_c, -10.0, 20.0},
    Key<MonthClimate>{"dewpoint_sd_c", &MonthClimate::dewpoint_sd_c, 0.0, 15.0},
    Key<MonthClimate>{"wet_day_dewpoint_rise_c", &MonthClimate::wet_day_dewpoint_rise_c, -10.0, 10.0},
    Key<MonthClimate>{"wind_m_s", &MonthClimate::wind_m_s, 0.0, 30.0},
    Key<MonthClimate>{"wind_sd_share", &MonthClimate::wind_sd_share, 0.0, 2.0},
};
constexpr std::array kSiteKeys{
    Key<Site>{"latitude_deg", &Site::latitude_deg, -90.0, 90.0},
    Key<Site>{"longitude_deg", &Site::longitude_deg, -180.0, 180.0},
    Key<Site>{"elevation_m", &Site::elevation_m, -430.0, 6000.0},
    Key<Site>{"utc_offset_h", &Site::utc_offset_h, -12.0, 14.0},
};
constexpr std::array kTopKeys{
    Key<GeneratorParameters>{"yearly_log_sd", &GeneratorParameters::yearly_log_sd, 0.0, 1.5}};

// Reads one file and gathers its issues.
class Reader {
 public:
  explicit Reader(std::string file) : file_{std::move(file)} {}

  void issue(const std::string& place, std::string found, std::string expected, std::string fix) {
    issues_.push_back({file_, place, std::move(found), std::move(expected), std::move(fix)});
  }

  template <class Owner, std::size_t N>
  Owner numbers(const json& object, const std::string& place, const std::array<Key<Owner>, N>& keys,
                Owner owner) {
    for (const auto& key : keys)
      owner.*key.member = number(object, place + key.name, key.name, key.least, key.most);
    return owner;
  }

  template <class Owner, std::size_t N>
  void unknown_keys(const json& object, const std::string& place, const std::array<Key<Owner>, N>& keys,
                    std::initializer_list<const char*> also) {
    for (const auto& item : object.items()) {
      const auto same = [&](const auto& key) { return item.key() == key.name; };
      if (std::any_of(keys.begin(), keys.end(), same) ||
          std::find(also.begin(), also.end(), item.key()) != also.end())
        continue;
      issue(place + item.key(), "an unknown key", "a key of docs/weather-generator.md",
            "correct the spelling or leave it out");
    }
  }

  [[nodiscard]] const Issues& issues() const { return issues_; }

 private:
  double number(const json& object, const std::string& place, const char* name, double least, double most) {
    const auto found = object.find(name);
    const std::string expected = fmt::format("a number from {} to {}", least, most);
    if (found == object.end()) {
      issue(place, "nothing", expected, "add the key");
      return least;
    }
    if (!found->is_number() || !(found->get<double>() >= least && found->get<double>() <= most)) {
      issue(place, found->dump(), expected, "correct the value");
      return least;
    }
    return found->get<double>();
  }

  std::string file_;
  Issues issues_;
};

Site read_site(Reader& reader, const json& top) {
  const auto found = top.find("site");
  if (found == top.end() || !found->is_object()) {
    reader.issue("site", "none", "an object with latitude_deg, longitude_deg, elevation_m, utc_offset_h",
                 "add it");
    return {};
  }
  Site site = reader.numbers(*found, "site.", kSiteKeys, Site{});
  reader.unknown_keys(*found, "site.", kSiteKeys, {"near_coast"});
  if (const auto coast = found->find("near_coast"); coast != found->end()) {
    if (!coast->is_boolean())
      reader.issue("site.near_coast", coast->dump(), "true or false", "correct the value");
    site.near_coast = coast->is_boolean() && coast->get<bool>();
  }
  return site;
}

std::uint64_t read_seed(Reader& reader, const json& top) {
  const auto found = top.find("seed");
  if (found != top.end() && found->is_number_unsigned()) return found->get<std::uint64_t>();
  reader.issue("seed", found == top.end() ? "nothing" : found->dump(), "a whole number, 0 or more",
               "add or correct it");
  return 0;
}

std::array<MonthClimate, 12> read_months(Reader& reader, const json& top) {
  std::array<MonthClimate, 12> months{};
  const auto found = top.find("months");
  if (found == top.end() || !found->is_array() || found->size() != months.size()) {
    reader.issue(
        "months",
        found != top.end() && found->is_array() ? fmt::format("{} entries", found->size()) : "no list",
        "a list of 12 objects, January first", "give every month once");
    return months;
  }
  for (std::size_t m = 0; m < months.size(); ++m) {
    const json& month = (*found)[m];
    const std::string place = fmt::format("months[{}]", m);
    if (!month.is_object()) {
      reader.issue(place, month.dump(), "an object", "give the keys of a month");
      continue;
    }
    months[m] = reader.numbers(month, place + ".", kMonthKeys, MonthClimate{});
    reader.unknown_keys(month, place + ".", kMonthKeys, {"month"});
    const auto number = month.find("month");
    if (number == month.end() || *number != m + 1) {
      reader.issue(place + ".month", number == month.end() ? "nothing" : number->dump(),
                   std::to_string(m + 1), "list the months from January (1) to December (12)");
    }
  }
  return months;
}

}  // namespace

Result<GeneratorParameters> read_generator_parameters(std::string_view text, const std::string& file) {
  Reader reader{file};
  const json top = json::parse(text, nullptr, false);
  if (top.is_discarded() || !top.is_object()) {
    reader.issue("whole file", "no JSON object", "an object with site, seed, yearly_log_sd and months",
                 "correct the JSON");
    return reader.issues();
  }
  GeneratorParameters parameters = reader.numbers(top, "", kTopKeys, GeneratorParameters{});
  reader.unknown_keys(top, "", kTopKeys, {"about", "fitted_to", "site", "seed", "months"});
  parameters.site = read_site(reader, top);
  parameters.seed = read_seed(reader, top);
  parameters.months = read_months(reader, top);
  if (!reader.issues().empty()) return reader.issues();
  return parameters;
}

}  // namespace aftercut::weather

#include "aftercut/farm/starter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include "aftercut/core/customary.hpp"

namespace aftercut::farm {
namespace {

using OrderedJson = nlohmann::ordered_json;

// All figures of this file are invented to start from. Source: StarterFarm (invented).
struct StarterTractor {
  const char* name;
  int pto_hp;
  const char* drive;
  int price;
};
constexpr std::array<StarterTractor, 3> tractors{{{"tracked", 290, "track", 400000},
                                                  {"front-assist", 200, "front_assist", 230000},
                                                  {"front-assist, small", 140, "front_assist", 150000}}};

struct StarterImplement {
  const char* id;
  double width_ft, speed_mph, depth_in;
  int price, hours;
  bool scales;  ///< one more for every `area_per_implement`
};
constexpr std::array<StarterImplement, 10> implements{{{"rake", 25, 6, 0, 32000, 120, false},
                                                       {"bale_wagon", 25, 5, 0, 85000, 150, false},
                                                       {"chopper", 20, 5, 0, 52000, 150, true},
                                                       {"disk", 21, 5, 6, 78000, 250, true},
                                                       {"chisel", 20, 5, 8, 46000, 150, true},
                                                       {"plane", 18, 5, 0, 58000, 160, true},
                                                       {"grooved_roller", 25, 5, 0, 34000, 120, false},
                                                       {"cage_roller", 20, 4.5, 0, 24000, 100, false},
                                                       {"torch", 40, 3, 0, 900, 40, false},
                                                       {"baler", 25, 5, 0, 0, 0, false}}};
constexpr double area_per_tractor_ha = 160.0;    ///< and per operator
constexpr double area_per_implement_ha = 300.0;  ///< of the kinds that scale
constexpr double canal_m3_s_per_ha = 0.0012;     ///< of the farm

// Exact by definition.
constexpr double m_per_ft = 0.3048, km_per_mile = 1.609344, cm_per_in = 2.54, kw_per_hp = 0.74569987;
constexpr double m3_per_ft3 = 0.028316846592, l_per_gal = 3.785411784;
constexpr double m3_per_acre_foot = 1233.48184;

/// Writes quantities in the farm's units.
struct Writer {
  bool us = false;
  [[nodiscard]] std::string length(double ft) const {
    return us ? fmt::format("{:g} ft", ft) : fmt::format("{:.1f} m", ft * m_per_ft);
  }
  [[nodiscard]] std::string speed(double mph) const {
    return us ? fmt::format("{:g} mph", mph) : fmt::format("{:.1f} km/h", mph * km_per_mile);
  }
  [[nodiscard]] std::string depth(double in) const {
    return us ? fmt::format("{:g} in", in) : fmt::format("{:.0f} cm", in * cm_per_in);
  }
  [[nodiscard]] std::string power(double hp) const {
    return us ? fmt::format("{:g} hp", hp) : fmt::format("{:.0f} kW", hp * kw_per_hp);
  }
  [[nodiscard]] std::string flow(double m3_s) const {
    return us ? fmt::format("{:.1f} ft3/s", m3_s / m3_per_ft3) : fmt::format("{:.3f} m3/s", m3_s);
  }
  /// A price by a unit: `per_us` USD a US unit, which is `si` SI units.
  [[nodiscard]] std::string price(double per_us, const char* us_unit, const char* si_unit, double si) const {
    return us ? fmt::format("{:g} USD/{}", per_us, us_unit)
              : fmt::format("{:.3g} USD/{}", per_us / si, si_unit);
  }
  [[nodiscard]] std::string by_area(double per_acre) const {
    return price(per_acre, "acre", "ha", ha_per_acre);
  }
};

int count_for(Hectare area, double each_ha, int least, int most) {
  return std::clamp(static_cast<int>(std::ceil(area.value() / each_ha)), least, most);
}

int people(Hectare area) { return count_for(area, area_per_tractor_ha, 2, 6); }

OrderedJson soils_json(const std::vector<std::string>& soils) {
  OrderedJson out = OrderedJson::array();
  for (const std::string& soil : soils)
    out.push_back({{"name", soil}, {"texture", texture_in_name(soil)}, {"clay_percent", 50}});
  return out;
}

OrderedJson tickets_json(const Starter& s) {
  OrderedJson out = OrderedJson::array();
  for (const StarterTicket& t : s.tickets) {
    const double kg = t.grain.value();
    const std::string grain = s.units == UnitSystem::us ? fmt::format("{:.1f} lb", kg / kg_per_lb)
                                                        : fmt::format("{:.4f} t", kg / 1000.0);
    out.push_back({{"name", t.name},
                   {"fields", t.fields},
                   {"grain", grain},
                   {"moisture", fmt::format("{:g} %", t.moisture_percent)}});
  }
  return out;
}

OrderedJson tractors_json(const Starter& s, const Writer& w) {
  OrderedJson out = OrderedJson::array();
  for (int i = 0; i < people(s.area); ++i) {
    const StarterTractor& t = tractors[static_cast<std::size_t>(i) % tractors.size()];
    out.push_back({{"id", fmt::format("T{}", i + 1)},
                   {"name", t.name},
                   {"pto_power", w.power(t.pto_hp)},
                   {"drive", t.drive},
                   {"price", fmt::format("{} USD", t.price)},
                   {"hours_per_year", 500}});
  }
  return out;
}

OrderedJson implement_json(const StarterImplement& row, const std::string& id, const Writer& w) {
  OrderedJson one{
      {"id", id}, {"kind", row.id}, {"width", w.length(row.width_ft)}, {"speed", w.speed(row.speed_mph)}};
  if (row.depth_in > 0.0) one["depth"] = w.depth(row.depth_in);
  if (std::string_view{row.id} == "baler") {
    one["throughput"] = "20 t/h";
    one["hire"] = {{"per_mass", "27 USD/t"}, {"call_out", "600 USD"}};
  } else {
    if (std::string_view{row.id} == "bale_wagon") one["throughput"] = "20 t/h";
    one["price"] = fmt::format("{} USD", row.price);
    one["hours_per_year"] = row.hours;
  }
  return one;
}

OrderedJson implements_json(const Starter& s, const Writer& w) {
  OrderedJson out = OrderedJson::array();
  for (const StarterImplement& row : implements) {
    const int n = row.scales ? count_for(s.area, area_per_implement_ha, 1, 4) : 1;
    for (int i = 1; i <= n; ++i)
      out.push_back(implement_json(row, n == 1 ? std::string{row.id} : fmt::format("{} {}", row.id, i), w));
  }
  return out;
}

OrderedJson operators_json(const Starter& s) {
  OrderedJson out = OrderedJson::array();
  for (int i = 1; i <= people(s.area); ++i)
    out.push_back({{"id", fmt::format("P{}", i)},
                   {"name", i == 1 ? "owner" : fmt::format("operator {}", i)},
                   {"skills", i <= 2 ? OrderedJson{"burning"} : OrderedJson::array()},
                   {"paid", i != 1},
                   {"wage", "28 USD/h"},
                   {"hours_per_day", 10}});
  return out;
}

OrderedJson prices_json(const Starter& s, const Writer& w) {
  return {{"diesel", w.price(4.0, "gal", "L", l_per_gal)},
          {"grain", w.price(0.19, "lb", "kg", kg_per_lb)},
          {"straw", "15 USD/t"},
          {"twine", "3 USD/t"},
          {"burn_fee", w.by_area(4.0)},
          {"unplanted", w.by_area(500.0)},
          {"price_year", year_of(s.season_first)}};
}

OrderedJson water_json(const Starter& s, const Writer& w) {
  const bool north = s.latitude_deg >= 0.0;
  return {{"most_flow", w.flow(std::max(0.05, canal_m3_s_per_ha * s.area.value()))},
          {"on", north ? "09-01" : "03-01"},
          {"off", north ? "02-15" : "08-15"},
          {"price", w.price(15.0, "acre_foot", "m3", m3_per_acre_foot)},
          {"charge", w.by_area(9.0)}};
}

}  // namespace

std::string texture_in_name(const std::string& soil) {
  std::string plain;
  for (const char c : soil)
    plain += c == '_' || c == '-' ? ' ' : static_cast<char>(c >= 'A' && c <= 'Z' ? c + 32 : c);
  // the longer names first, so that "clay" does not hide "silty clay loam"
  for (const char* texture : {"silty clay loam", "sandy clay loam", "silty clay", "sandy clay", "clay loam",
                              "silt loam", "sandy loam", "loamy sand", "clay", "loam", "silt", "sand"})
    if (plain.find(texture) != std::string::npos) return texture;
  return "clay";
}

std::string starter_machines(Hectare area) {
  const int more = count_for(area, area_per_implement_ha, 1, 4);
  return fmt::format(
      "{0} tractors, {0} operators, {1} of each tillage implement and of the chopper, one hired baler",
      people(area), more);
}

std::string starter_json(const Starter& s) {
  const Writer w{s.units == UnitSystem::us};
  OrderedJson out{
      {"name", s.name}, {"currency", "USD"}, {"units", w.us ? "US" : "SI"}, {"as_of", iso(s.as_of)}};
  out["season"] = {
      {"first", iso(s.season_first)}, {"last", iso(s.season_last)}, {"planting_date", iso(s.planting)}};
  out["site"] = {
      {"latitude_deg", s.latitude_deg}, {"longitude_deg", s.longitude_deg}, {"utc_offset_h", s.utc_offset_h}};
  out["fields"] = {{"file", s.fields_file}};
  out["field_defaults"] = {{"lay", "spread"}, {"cut_height", w.us ? "12 in" : "30 cm"}};
  out["soils"] = soils_json(s.soils);
  if (!s.tickets.empty()) out["tickets"] = tickets_json(s);
  out["tractors"] = tractors_json(s, w);
  out["implements"] = implements_json(s, w);
  out["operators"] = operators_json(s);
  out["water"] = water_json(s, w);
  out["weather"] = {{"file", "weather.csv"}};
  out["prices"] = prices_json(s, w);
  out["straw"] = {{"harvest_index", 0.53}};
  out["target"] = {{"wanted_chance", 0.8}};
  std::string text = out.dump(1);
  text.push_back('\n');
  return text;
}

}  // namespace aftercut::farm

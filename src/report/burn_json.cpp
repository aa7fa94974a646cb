// The standing of fields on a day as JSON.

#include "burn_words.hpp"

namespace aftercut::report {
namespace {

std::vector<std::string> texts_of(const burn::Finding& finding) {
  std::vector<std::string> out;
  for (const burn::RowWords& row : finding.rows) out.push_back(burn::to_text(row));
  return out;
}

json neighbour_json(const farm::Farm& farm, const season::SectorNeighbours& sector) {
  json out = json::array();
  for (std::size_t kind = 0; kind < sector.by_kind.size(); ++kind) {
    const auto& n = sector.by_kind[kind];
    if (!n) continue;
    out.push_back({{"kind", burn::setback_kinds[kind]},
                   {"name", farm.places.at(n->place).name},
                   {"distance_m", rounded(n->distance.value(), 1)},
                   {"bearing_deg", rounded(n->bearing_deg, 0)}});
  }
  return out;
}

json tasks_json(const season::BurnStanding& s) {
  json out = json::array();
  for (const season::BurnTask& t : s.tasks)
    out.push_back({{"row", t.name},
                   {"kind", burn::to_text(t.role)},
                   {"says", t.text},
                   {"by", t.by_day && t.by_hour ? json(iso(*t.by_day) + "T" + clock_words(*t.by_hour))
                                                : json(nullptr)}});
  return out;
}

json cautions_of(const season::BurnStanding& s) {
  json out = json::array();
  for (const season::FireCaution& c : s.cautions) {
    json crossing = json::array();
    for (const auto& [width, chance] : c.crossing)
      crossing.push_back({{"width_m", rounded(width, 2)}, {"chance", rounded(chance, 3)}});
    out.push_back({{"weather", c.when},
                   {"temperature_c", rounded(c.weather.temperature_c, 1)},
                   {"humidity_percent", rounded(c.weather.humidity_percent, 0)},
                   {"wind_10m_km_per_h", rounded(c.weather.wind_km_h, 1)},
                   {"head_spread_km_per_h", rounded(c.head_km_h, 3)},
                   {"other_head_spread_km_per_h", rounded(c.other_head_km_h, 3)},
                   {"intensity_kw_per_m", rounded(c.intensity_kw_per_m, 0)},
                   {"flame_length_m", rounded(c.flame_m, 1)},
                   {"grass_danger_index", rounded(c.danger_index, 1)},
                   {"crossing", crossing}});
  }
  return out;
}

json range_json(const Uncertain& u) {
  return {{"middle", rounded(u.mid, 1)}, {"low", rounded(u.low, 1)}, {"high", rounded(u.high, 1)}};
}

json air_json(const season::BurnStanding& s) {
  json out = json::object();
  for (const burn::Gas gas : {burn::Gas::pm25, burn::Gas::co, burn::Gas::nox, burn::Gas::ch4, burn::Gas::n2o})
    out[std::string{burn::key_of(gas)} + "_kg"] = range_json(s.air[static_cast<std::size_t>(gas)]);
  out["co2e_kg"] = range_json(s.co2e_kg);
  return out;
}

json one_json(const farm::Farm& farm, const season::BurnStanding& s) {
  const farm::Field& field = farm.fields.at(s.field);
  json around = json::object();
  for (std::size_t k = 0; k < s.around.size(); ++k)
    around[geo::sector_names[k]] = neighbour_json(farm, s.around[k]);
  return {{"field", field.id.value},
          {"name", field.name},
          {"day", iso(s.day)},
          {"standing", standing_words(farm, s)},
          {"rows", texts_of(s.finding)},
          {"area_ha", rounded(field.area.value(), 4)},
          {"longitude_deg", rounded(s.middle.x, 6)},
          {"latitude_deg", rounded(s.middle.y, 6)},
          {"straw_kg_per_ha", rounded(s.load_kg_per_ha, 0)},
          {"straw_kg", rounded(s.mass_kg, 0)},
          {"straw_lay", words(field.lay)},
          {"cut_on", iso(field.harvest)},
          {"days_since_cut", s.day - field.harvest},
          {"sunrise", clock_words(s.sunrise_hour)},
          {"sunset", clock_words(s.sunset_hour)},
          {"tasks", tasks_json(s)},
          {"around", around},
          {"cautions", cautions_of(s)},
          {"straw_consumed_kg", rounded(s.burned_kg, 0)},
          {"emissions", air_json(s)}};
}

}  // namespace

std::string burn_json(const farm::Farm& farm, const std::vector<season::BurnStanding>& fields) {
  json list = json::array();
  for (const season::BurnStanding& s : fields) list.push_back(one_json(farm, s));
  const json out{{"schema", "aftercut-burn-1"},
                 {"farm", farm.name},
                 {"authority", farm.burning ? json(farm.burning->authority) : json(nullptr)},
                 {"fields", list}};
  return out.dump(1) + "\n";
}

}  // namespace aftercut::report

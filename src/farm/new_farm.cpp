#include "aftercut/farm/new_farm.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "aftercut/core/customary.hpp"
#include "aftercut/core/save_file.hpp"
#include "aftercut/farm/starter.hpp"
#include "aftercut/geo/layer.hpp"
#include "joined_fields.hpp"
#include "parts.hpp"

namespace aftercut::farm {
namespace {

namespace fs = std::filesystem;

// Where a farm without boundaries is put: open ocean, so that no real land is shown. Source: StarterFarm
// (invented).
constexpr double unknown_latitude_deg = 39.0, unknown_longitude_deg = -140.0;
constexpr int days_before_harvest = 26;  ///< the season starts: water is drained 21 days before harvest
constexpr int days_after_cut_off = 25;   ///< and ends
constexpr int days_to_cut_off = 31;      ///< from the planting date, the reader's default
constexpr int least_winter_days = 90;    ///< between the last harvest and the planting date

/// The first or the sixteenth of the month, at or before the day.
Date half_month_at_or_before(Date d) {
  return d - (day_of_month(d) >= 16 ? day_of_month(d) - 16 : day_of_month(d) - 1);
}

void set_season(Starter& s, const std::vector<NewField>& fields) {
  const auto [first, last] =
      std::minmax_element(fields.begin(), fields.end(),
                          [](const NewField& a, const NewField& b) { return a.row.harvest < b.row.harvest; });
  const bool north = s.latitude_deg >= 0.0;
  s.season_first = half_month_at_or_before(first->row.harvest - days_before_harvest);
  s.planting = next_on(north ? MonthDay{5, 5} : MonthDay{11, 5}, last->row.harvest + least_winter_days);
  s.season_last = s.planting + days_to_cut_off + days_after_cut_off;
}

void set_site(Starter& s, const std::vector<NewField>& fields) {
  const bool drawn = !fields.front().shape.polygons.empty();
  const bool south = std::any_of(fields.begin(), fields.end(),
                                 [](const NewField& f) { return month_of(f.row.harvest) < 7; });
  const geo::Point at =
      drawn ? geo::label_point(fields.front().shape)
            : geo::Point{unknown_longitude_deg, south ? -unknown_latitude_deg : unknown_latitude_deg};
  s.latitude_deg = std::round(at.y * 1000.0) / 1000.0;
  s.longitude_deg = std::round(at.x * 1000.0) / 1000.0;
  s.utc_offset_h = static_cast<int>(std::lround(at.x / 15.0));
}

/// Tickets that hold grain, with their fields. A field's own grain is no ticket: it becomes the field's
/// yield.
std::vector<StarterTicket> tickets_of(const std::vector<NewField>& fields) {
  std::map<std::string, StarterTicket> by_name;
  for (const NewField& f : fields) {
    if (f.row.ticket.empty()) continue;
    StarterTicket& t = by_name[f.row.ticket];
    t.name = f.row.ticket;
    t.fields.push_back(f.row.name);
    if (f.row.grain) t.grain = *f.row.grain;
    if (f.row.moisture_percent) t.moisture_percent = *f.row.moisture_percent;
  }
  std::vector<StarterTicket> out;
  for (auto& [name, ticket] : by_name)
    if (ticket.grain > Kilogram{0.0}) out.push_back(std::move(ticket));
  return out;
}

/// Grain by area [kg/ha as delivered] that is written beside the field; nothing where a ticket holds it.
std::optional<double> own_yield(const NewField& f, const Starter& s) {
  const bool by_ticket = std::any_of(s.tickets.begin(), s.tickets.end(),
                                     [&](const StarterTicket& t) { return t.name == f.row.ticket; });
  if (by_ticket) return {};
  return f.row.grain ? f.row.grain->value() / f.area.value() : f.row.yield.value_or(KgPerHa{}).value();
}

Starter starter_of(const NewFarmInput& input, const std::vector<NewField>& fields) {
  Starter s;
  s.name = input.folder.filename().empty() ? input.folder.parent_path().filename().string()
                                           : input.folder.filename().string();
  s.units = input.units;
  set_site(s, fields);
  set_season(s, fields);
  s.as_of = input.as_of.value_or(s.season_first);
  std::set<std::string> soils;
  for (const NewField& f : fields) {
    if (!input.as_of) s.as_of = std::max(s.as_of, f.row.harvest + 1);
    soils.insert(f.row.soil);
    s.area = s.area + f.area;
  }
  s.soils.assign(soils.begin(), soils.end());
  s.tickets = tickets_of(fields);
  s.fields_file = input.boundaries ? "fields.geojson" : "fields.csv";
  return s;
}

/// The field's row of the layer: column and text.
std::vector<std::pair<std::string, std::string>> values_of(const NewField& f, const Starter& s) {
  const bool us = s.units == UnitSystem::us;
  std::vector<std::pair<std::string, std::string>> out{{"id", f.row.name}};
  if (f.shape.polygons.empty())
    out.emplace_back(us ? "area_acre" : "area_ha",
                     fmt::format("{:.4f}", us ? f.area.value() / ha_per_acre : f.area.value()));
  out.emplace_back("soil", f.row.soil);
  out.emplace_back("harvest", iso(f.row.harvest));
  out.emplace_back("cut", f.row.harvest <= s.as_of ? "yes" : "no");
  const auto kg_ha = own_yield(f, s);
  out.emplace_back(us ? "yield_lb_per_acre" : "yield_kg_per_ha",
                   kg_ha ? fmt::format("{:.1f}", us ? *kg_ha * ha_per_acre / kg_per_lb : *kg_ha) : "");
  out.emplace_back("moisture_percent",
                   kg_ha && f.row.moisture_percent ? fmt::format("{:g}", *f.row.moisture_percent) : "");
  return out;
}

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"\n\r;\t") == std::string::npos) return text;
  std::string out{'"'};
  for (const char c : text) out.append(c == '"' ? 2 : 1, c);
  out.push_back('"');
  return out;
}

Result<fs::path> write_table(const fs::path& file, const std::vector<NewField>& fields, const Starter& s) {
  std::vector<std::string> header;
  for (const auto& [column, value] : values_of(fields.front(), s)) header.push_back(column);
  std::string text = fmt::format("{}\n", fmt::join(header, ","));
  for (const NewField& f : fields) {
    std::vector<std::string> cells;
    for (const auto& [column, value] : values_of(f, s)) cells.push_back(csv_cell(value));
    text.append(fmt::format("{}\n", fmt::join(cells, ",")));
  }
  return save_file(file, text);
}

Result<fs::path> write_layer(const fs::path& file, const std::vector<NewField>& fields, const Starter& s) {
  geo::LayerToWrite layer{"fields", {}, {}};
  for (const auto& [column, value] : values_of(fields.front(), s)) layer.columns.emplace_back(column, 't');
  for (const NewField& f : fields) {
    geo::Feature feature{static_cast<int>(layer.features.size()) + 1, {}, f.shape};
    for (const auto& [column, value] : values_of(f, s))
      if (!value.empty()) feature.values[column] = value;
    layer.features.push_back(std::move(feature));
  }
  return geo::write_geojson(file, layer);
}

/// The guesses, those that matter most first.
std::vector<Guess> guesses_of(const NewFarmInput& input, const Starter& s) {
  std::vector<Guess> out;
  if (!input.weather)
    out.push_back({"No weather: nothing can be planned yet.",
                   "put a daily record of many years beside farm.json as weather.csv (columns date, tmin_c, "
                   "tmax_c, rain_mm)"});
  if (!input.boundaries)
    out.push_back({fmt::format("The place: {:g}, {:g}, open ocean, and each field a rectangle of its area.",
                               s.latitude_deg, s.longitude_deg),
                   "site in farm.json; or start again with --boundaries"});
  out.push_back(
      {fmt::format("The seedbeds are wanted by {}, and a field not ready {} days later stays unplanted.",
                   iso(s.planting), days_to_cut_off),
       "season.planting_date and season.cut_off, or planting_date for each field"});
  out.push_back(
      {fmt::format("{}.", starter_machines(s.area)), "tractors, implements and operators in farm.json"});
  out.push_back({"The prices are invented.", "prices, water and the implements' hire in farm.json"});
  out.push_back({"Harvest index 0.53 for every field, grain at 14 % moisture where the table says nothing.",
                 "straw.harvest_index in farm.json; moisture_percent or straw_load_kg_per_ha for a field"});
  out.push_back({"Straw spread, cut at 30 cm, on every field that is cut.",
                 "field_defaults in farm.json, or lay and cut_height_cm for a field"});
  out.push_back({"Each soil is 50 % clay, its texture by its name (clay where the name speaks of none).",
                 "soils in farm.json"});
  return out;
}

Issues existing_files(const fs::path& folder) {
  Issues out;
  for (const char* name : {"farm.json", "fields.csv", "fields.geojson", "weather.csv"}) {
    std::error_code error;
    if (fs::exists(folder / name, error))
      out.push_back({(folder / name).string(), "whole file", "a file that is there already",
                     "a folder without a farm", "choose another folder; nothing is overwritten"});
  }
  return out;
}

Issues season_issues(const NewFarmInput& input, const Starter& s) {
  Issues out;
  const int days = s.season_last - s.season_first + 1;
  if (days > longest_season_days)
    out.push_back(
        {input.table.string(), "harvest days",
         fmt::format("a season of {} days, {} to {}", days, iso(s.season_first), iso(s.season_last)),
         "harvest, winter and planting within 365 days",
         "correct the harvest days, or make a farm of each harvest"});
  if (s.as_of < s.season_first || s.as_of > s.season_last)
    out.push_back({"command line", "--as-of", iso(s.as_of),
                   fmt::format("a day from {} to {}", iso(s.season_first), iso(s.season_last)),
                   "give a day of this season"});
  return out;
}

/// Writes one file after another; the issues of the first that cannot be written.
Result<NewFarm> write_all(const NewFarmInput& input, const Starter& s, const Joined& joined,
                          const std::string& weather) {
  std::error_code error;
  fs::create_directories(input.folder, error);
  if (error)
    return Issues{{input.folder.string(), "folder", error.message(), "a place where a folder can be made",
                   "choose another folder"}};
  NewFarm out{input.folder, {}, guesses_of(input, s), joined.notes};
  const fs::path layer = input.folder / s.fields_file;
  const auto fields =
      input.boundaries ? write_layer(layer, joined.fields, s) : write_table(layer, joined.fields, s);
  if (!fields) return fields.issues();
  out.files.push_back(layer);
  if (input.weather) {
    const auto copied = save_file(input.folder / "weather.csv", weather);
    if (!copied) return copied.issues();
    out.files.push_back(input.folder / "weather.csv");
  }
  const auto farm = save_file(input.folder / "farm.json", starter_json(s));
  if (!farm) return farm.issues();
  out.files.push_back(input.folder / "farm.json");
  return out;
}

}  // namespace

Result<NewFarm> new_farm(const NewFarmInput& input) {
  Issues issues = existing_files(input.folder);
  const auto weather = input.weather ? read_file(*input.weather) : Result<std::string>{std::string{}};
  const auto joined = join_fields(input.table, input.boundaries);
  for (const Issue& i : weather.issues()) issues.push_back(i);
  for (const Issue& i : joined.issues()) issues.push_back(i);
  if (!issues.empty()) return issues;
  const Starter s = starter_of(input, joined.value().fields);
  if (Issues wrong = season_issues(input, s); !wrong.empty()) return wrong;
  return write_all(input, s, joined.value(), weather.value());
}

}  // namespace aftercut::farm

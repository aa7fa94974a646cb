#include "aftercut/farm/read.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "aftercut/core/digest.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/core/save_file.hpp"
#include "change_settings.hpp"
#include "parts.hpp"
#include "schema.hpp"
#include "setting.hpp"
#include "yield_parts.hpp"

namespace aftercut::farm {
namespace {

const std::string farm_json = "farm.json";

/// A text file of the folder and what it means, or issues under the name that farm.json gives it.
struct TextFile {
  std::string name, text;
};
std::optional<TextFile> open_text(const Object& top, const std::string& key, const Folder& folder) {
  const auto name = top.text(key);
  if (!name) return std::nullopt;
  const Result<std::string> text = read_file(folder.path / *name);
  if (text) return TextFile{*name, text.value()};
  top.faults().add_all_as(*name, text.issues());
  return std::nullopt;
}

Farm::Input input_of(const TextFile& file) {
  const Result<Json> value = parse_json(file.text, file.name);
  return {file.name, sha256_hex(value.ok() ? canonical(value.value()) : file.text)};
}

Farm with_book(Farm farm, const Object& top, const Folder& folder) {
  farm.book = method::builtin_book();
  const auto file = open_text(top, "methods", folder);
  if (!file) return farm;
  farm.inputs.push_back(input_of(*file));
  const Result<method::Book> book = method::extend(farm.book, file->text, file->name);
  if (book)
    farm.book = book.value();
  else
    top.faults().add_all_as(file->name, book.issues());
  return farm;
}

Farm with_burn_rules(Farm farm, const Object& top, const Folder& folder) {
  const BurnCalls calls = read_burn_calls(top, folder);
  farm.burn_calls = calls.calls;
  if (calls.input) farm.inputs.push_back(*calls.input);
  const auto file = open_text(top, "burn_rules", folder);
  if (!file) return farm;
  farm.inputs.push_back(input_of(*file));
  const Result<burn::Jurisdiction> rules = burn::read_jurisdiction(file->text, file->name);
  if (rules)
    farm.burning = rules.value();
  else
    top.faults().add_all_as(file->name, rules.issues());
  return farm;
}

void check_unique(const Object& top, const std::vector<std::string>& lists) {
  std::set<std::string> seen;
  for (const std::string& list : lists)
    for (const Object& o : top.list(list))
      if (const auto id = o.text("id"); id && !seen.insert(*id).second)
        o.fault("id", in_quotes(*id) + " twice", "each id once among " + listed(lists),
                "give one of the two another id");
}

Farm with_machines(Farm farm, const Object& top) {
  farm.tractors = read_tractors(top, farm.currency);
  farm.implements = read_implements(top, farm.currency);
  farm.operators = read_operators(top, farm.currency, farm.book);
  check_unique(top, {"tractors", "implements"});
  check_unique(top, {"operators"});
  return farm;
}

Farm with_settings(Farm farm, const Object& top) {
  farm.supply = read_supply(top, farm.currency);
  farm.prices = read_prices(top, farm.currency, year_of(farm.season.first));
  farm.target = read_target(top, farm.currency);
  farm.work_day = read_work_day(top);
  farm.traffic = read_limits(top);
  farm.combine_ruts = read_combine_ruts(top.child("limits"));
  farm.most_dry_wait_days =
      top.child("limits").whole("most_dry_wait_days", 0, 60).value_or(farm.most_dry_wait_days);
  const Object straw = top.child("straw");
  farm.decay = read_decay(straw);
  farm.moisture = read_drying(straw);
  farm.burial = read_burial(straw);
  farm.environment = read_environment(top, farm.site.latitude_deg < 0.0);
  farm.bale_moisture_percent =
      straw.quantity("bale_moisture", "%", {5.0, 60.0}).value_or(farm.bale_moisture_percent);
  farm.bales = read_bales(top);
  return farm;
}

FieldSetting setting_of(const Farm& farm, const Object& top, const SeasonDates& season) {
  FieldSetting s{season, farm.soils, farm.currency, 0.53, top.date("as_of"), {}};
  s.harvest_index = top.child("straw").number("harvest_index", {0.2, 0.7}).value_or(s.harvest_index);
  for (const method::Recipe& r : farm.book.recipes) s.methods.push_back(r.id);
  return s;
}

Farm with_fields(Farm farm, const Object& top, const Folder& folder, const SeasonDates& season) {
  const FieldRows rows = read_field_rows(top, folder);
  const Land land = lay_out_land(rows, farm.site);
  const FieldSetting setting = setting_of(farm, top, season);
  const std::vector<ReadField> fields = read_fields(rows, land, setting);
  check_references(fields, setting);
  const MappedGrain grain = read_mapped_grain(top, folder, fields);
  Strawed strawed = share_out_grain(fields, top, means_of(grain));
  Leveed leveed = with_levees(std::move(strawed.fields), top, folder);
  farm.fields = std::move(leveed.fields);
  farm.yield_map = straw_map(grain, fields, farm.fields);
  Places places = read_places(top, folder);
  farm.places = std::move(places.places);
  const RoadsRead roads = read_roads(top, folder);
  ReadStacking stacks = read_stacking(top, folder);
  farm.stacking = std::move(stacks.stacking);
  check_hire_orders(top, farm.fields);
  farm.target.risk = read_risk(top, farm);
  farm.notes.insert(farm.notes.end(), land.notes.begin(), land.notes.end());
  farm.notes.insert(farm.notes.end(), strawed.notes.begin(), strawed.notes.end());
  farm.notes.insert(farm.notes.end(), farm.yield_map.notes.begin(), farm.yield_map.notes.end());
  farm.inputs.insert(farm.inputs.end(), grain.inputs.begin(), grain.inputs.end());
  for (const auto& input : {rows.input, leveed.input, places.input, roads.input, stacks.input})
    if (input) farm.inputs.push_back(*input);
  farm.levees_part = !top.child("levees").yes("crossed").value_or(false);
  if (top.faults().any()) return farm;
  farm = with_ways(std::move(farm), top, roads.map);
  return farm;
}

struct Sky {
  weather::Years years;
  weather::Estimated estimated;
  weather::Series record;
  std::optional<weather::Series> forecast, seen;
  std::vector<Farm::Input> inputs;
};

std::optional<weather::Series> series_of(const Object& part, const std::string& key, const WeatherRows& rows,
                                         const Farm& farm, const weather::GapRules& rules) {
  if (rows.rows.empty()) return std::nullopt;
  const std::string file = part.text_or("file", key);
  const Result<weather::Series> series = weather::complete(rows.rows, farm.site, rules, file);
  if (series) return series.value();
  part.faults().add_all_as(file, series.issues());
  return std::nullopt;
}

Sky read_sky(const Object& top, const Folder& folder, const Farm& farm, const ReadOptions& options,
             Date as_of) {
  const Object part = top.child("weather"), forecast_part = top.child("forecast"),
               seen_part = top.child("weather_so_far");
  const weather::GapRules rules = read_gap_rules(part);
  const WeatherRows rows = read_weather_rows(part, folder), ahead = read_weather_rows(forecast_part, folder),
                    behind = read_weather_rows(seen_part, folder);
  Sky sky;
  if (rows.input) sky.inputs.push_back(*rows.input);
  for (const auto& input : {ahead.input, behind.input})
    if (input) sky.inputs.push_back({input->path, input->sha256, true});
  const auto series = series_of(part, "weather", rows, farm, rules),
             forecast = series_of(forecast_part, "forecast", ahead, farm, rules),
             behind_us = series_of(seen_part, "weather_so_far", behind, farm, rules);
  if (!series || farm.season.days <= 0) return sky;
  const Object years = part.child("years");
  const auto from = options.years_from ? options.years_from : years.whole("from", 1400, 9998);
  const auto to = options.years_to ? options.years_to : years.whole("to", 1400, 9998);
  if (!options.years_from && !options.years_to && from && to && *to < *from)
    years.fault("to", std::to_string(*to), "a year not before from, " + std::to_string(*from),
                "turn the two years around");
  sky.years = weather::lay_on_season(*series, farm.site, farm.season.first, farm.season.days, from, to);
  sky.estimated = series->estimated;
  sky.record = *series;
  if (forecast) weather::put_forecast_in_front(sky.years, *forecast, farm.site);
  sky.forecast = forecast;
  sky.seen = weather::days_seen(*series, behind_us, farm.season.first, as_of);
  if (sky.seen) weather::put_forecast_in_front(sky.years, *sky.seen, farm.site);
  return sky;
}

Date read_as_of(const Object& top, const SeasonDates& season, const ReadOptions& options) {
  const Date first = season.calendar.first, last = season.calendar.date(season.calendar.days - 1);
  const Date day = options.as_of ? *options.as_of : top.date("as_of").value_or(first);
  if (!season.sound || (day >= first && day <= last)) return day;
  const std::string expected = "a day of the season, " + iso(first) + " to " + iso(last);
  if (options.as_of)
    top.faults().add({"command line", "as-of", iso(day), expected, "give another day"});
  else
    top.fault("as_of", iso(day), expected, "correct as_of or the season");
  return day;
}

Farm base_farm(const Object& top, const SeasonDates& season, const weather::Site& site,
               const Json& document) {
  Farm farm;
  farm.name = top.text_or("name", "");
  farm.currency = top.text_or("currency", "USD");
  farm.units = top.word("units", {"SI", "US"}).value_or(0) == 0 ? UnitSystem::si : UnitSystem::us;
  farm.season = season.calendar;
  farm.site = site;
  farm.soils = read_soils(top);
  farm.inputs.push_back({farm_json, sha256_hex(canonical(document))});
  return farm;
}

Problem build(const Json& document, const Folder& folder, const ReadOptions& options, Faults& faults) {
  const Object top{document, {farm_json, ""}, faults};
  const weather::Site site = read_site(top);
  const SeasonDates season = read_season(top, site.latitude_deg < 0.0);
  Problem p;
  p.farm = base_farm(top, season, site, document);
  p.farm = with_burn_rules(with_book(std::move(p.farm), top, folder), top, folder);
  p.farm = with_settings(with_machines(std::move(p.farm), top), top);
  p.farm = with_fields(std::move(p.farm), top, folder, season);
  if (options.fit_implements && !faults.any()) p.farm.fits = fit_implements(p.farm);
  p.as_of = read_as_of(top, season, options);
  Sky sky = read_sky(top, folder, p.farm, options, p.as_of);
  p.years = std::move(sky.years);
  p.estimated = sky.estimated;
  p.record = std::move(sky.record);
  p.forecast = std::move(sky.forecast);
  p.seen = std::move(sky.seen);
  const std::vector<std::string> notes = work_notes(p.farm);
  p.farm.notes.insert(p.farm.notes.end(), notes.begin(), notes.end());
  p.farm.inputs.insert(p.farm.inputs.end(), sky.inputs.begin(), sky.inputs.end());
  std::sort(p.farm.notes.begin(), p.farm.notes.end(), natural_less);
  std::sort(p.farm.inputs.begin(), p.farm.inputs.end(),
            [](const auto& a, const auto& b) { return a.path < b.path; });
  return p;
}

/// What the folder's fields and methods are called; faults in them are left to the reader of the whole.
Named named_in(const Json& document, const Folder& folder) {
  Faults unheard;
  const Object top{document, {farm_json, ""}, unheard};
  Named named;
  for (const FieldRow& row : read_field_rows(top, folder).rows) {
    named.fields.insert(row.id);
    if (const auto day = row.values.date("planting_date")) named.planting[row.id] = *day;
  }
  for (const method::Recipe& recipe : with_book(Farm{}, top, folder).book.recipes)
    named.methods.insert(recipe.id.value);
  return named;
}

Result<Json> with_all_made(const Json& written, const Folder& folder, const ReadOptions& options) {
  const Result<Json> set = with_settings_made(written, options.set);
  if (!set || !options.scenario || !set.value().is_object()) return set;
  return with_changes_made(set.value(), *options.scenario, named_in(set.value(), folder),
                           options.scenario_file);
}

}  // namespace

Result<Problem> read(const std::filesystem::path& folder, const ReadOptions& options) {
  Faults faults;
  const Result<std::string> text = read_file(folder / farm_json);
  if (!text) {
    faults.add_all_as(farm_json, text.issues());
    return faults.sorted();
  }
  const Result<Json> written = parse_json(text.value(), farm_json);
  if (!written) return written.issues();
  const Result<Json> document = with_all_made(written.value(), Folder{folder}, options);
  if (!document) return document.issues();
  faults.add_all(check_schema(document.value(), farm_json));
  if (!document.value().is_object()) return faults.sorted();
  Problem problem = build(document.value(), Folder{folder}, options, faults);
  if (faults.any()) return faults.sorted();
  return problem;
}

}  // namespace aftercut::farm

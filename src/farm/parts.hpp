#pragma once
// The subjects of a farm folder, each read from its part of farm.json.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/farm/farm.hpp"
#include "aftercut/geo/layer.hpp"
#include "object.hpp"

namespace aftercut::farm {

/// Where the files are; farm.json's own name is used in issues.
struct Folder {
  std::filesystem::path path;
};

inline constexpr int longest_season_days = 365;  ///< each day of the year at most once

/// Seasons's dates and what fields take over from them.
struct SeasonDates {
  Calendar calendar;
  bool sound = false;  ///< first and last day are there and make a season: dates can be checked against it
  std::optional<Date> planting, window_opens, cut_off;
  std::vector<LateNode> late_curve;          ///< as entered; empty: the default
  bool south = false;                        ///< of the equator
  std::optional<double> planted_ha_per_day;  ///< the planter's pace: fields are due one after the other
};
SeasonDates read_season(const Object& top, bool south);
std::vector<LateNode> read_late_curve(const Object& holder);
/// 19 kg/ha a day from 1 May (south: 1 November), or from the planting date where that is later, to the
/// cut-off.
std::vector<LateNode> default_late_curve(const SeasonDates& season, Date planting, Date cut_off);

weather::Site read_site(const Object& top);
std::vector<soil::Profile> read_soils(const Object& top);  ///< by natural order of names

std::vector<machinery::DateRange> read_ranges(const Object& holder, const std::string& key);
std::optional<machinery::Hire> read_hire(const Object& implement, const std::string& currency,
                                         const std::string& kind);
/// Fields that a hired outfit's order names exist.
void check_hire_orders(const Object& top, const std::vector<Field>& fields);
std::vector<machinery::Tractor> read_tractors(const Object& top, const std::string& currency);
std::vector<machinery::Implement> read_implements(const Object& top, const std::string& currency);
std::vector<Operator> read_operators(const Object& top, const std::string& currency,
                                     const method::Book& book);

/// Skills that nobody has; machines whose entered area per day is not what width and speed give.
std::vector<std::string> work_notes(const Farm& farm);

std::optional<water::Supply> read_supply(const Object& top, const std::string& currency);
Prices read_prices(const Object& top, const std::string& currency, int default_year);
Target read_target(const Object& top, const std::string& currency);
/// What makes the plan sure: as stated, else both where a chance is stated. With the fields read; tells
/// wishes that contradict each other.
Risk read_risk(const Object& top, const Farm& farm);
WorkDay read_work_day(const Object& top);
straw::DecaySettings read_decay(const Object& straw);
straw::MoistureSettings read_drying(const Object& straw);
straw::BurialSettings read_burial(const Object& straw);
soil::TrafficLimits read_limits(const Object& top);
CombineRuts read_combine_ruts(const Object& limits);
EnvironmentSettings read_environment(const Object& top, bool south);
NutrientPrices read_nutrient_prices(const Object& prices, const std::string& currency);
DiseaseHistory read_disease(const Object& values);
/// Earlier seasons of a field, oldest first. Issues: a season twice, or not before `season`'s.
std::vector<PastSeason> read_history(const Object& values, const SeasonDates& season);

/// A field's values from layer, defaults and entries by id, merged, and its boundary.
struct FieldRow {
  std::string id;
  Object values;
  geo::Shape shape;
};
struct FieldRows {
  std::vector<FieldRow> rows;  ///< by natural order of ids
  bool with_shapes = true;     ///< false: a table
  std::string file;
  std::optional<Farm::Input> input;
};
FieldRows read_field_rows(const Object& top, const Folder& folder);

/// Boundaries mended, areas worked out, overlaps found; rectangles for a table's fields. `notes` for the
/// report.
struct Land {
  struct Plot {
    geo::Shape shape;
    Hectare area;
    bool invented = false;
    std::vector<std::string> notes;
  };
  std::vector<Plot> plots;  ///< [row]
  std::vector<std::string> notes;
};
Land lay_out_land(const FieldRows& rows, const weather::Site& site);

/// Summer drain before harvest where none is given [days]. Assumed.
inline constexpr int default_drain_days = 21;

/// What a field's values are read against.
struct FieldSetting {
  SeasonDates season;
  std::vector<soil::Profile> soils;
  std::string currency;
  double harvest_index = 0.53;
  std::optional<Date> stated_as_of;  ///< as farm.json states it
  std::vector<MethodId> methods;
};

/// A field before tickets are shared out.
struct ReadField {
  Field field;
  Object values;
  double moisture = 0.14;  ///< of the grain, wet basis, share
  double harvest_index = 0.53;
};
std::vector<ReadField> read_fields(const FieldRows& rows, const Land& land, const FieldSetting& setting);
NextUse read_next_use(const Object& values, const SeasonDates& season, Date harvest);
void check_dates(const Field& field, const Object& values, const FieldSetting& setting);

/// Fields with their straw, in the same order; and notes on shared tickets.
struct Strawed {
  std::vector<Field> fields;
  std::vector<std::string> notes;
};
/// `mapped`: each field's mean dry grain by a yield map. It shares out a ticket of which every field is
/// mapped, and stands in for a field that has neither yield nor ticket.
Strawed share_out_grain(std::vector<ReadField> fields, const Object& top,
                        const std::vector<std::optional<KgPerHa>>& mapped);

/// Links to fields that exist, methods to be locked that exist.
void check_references(const std::vector<ReadField>& fields, const FieldSetting& setting);

/// Levees added to their fields.
struct Leveed {
  std::vector<Field> fields;
  std::optional<Farm::Input> input;
};
Leveed with_levees(std::vector<Field> fields, const Object& top, const Folder& folder);

struct Places {
  std::vector<Place> places;  ///< by kind, name, place
  std::optional<Farm::Input> input;
};
Places read_places(const Object& top, const Folder& folder);

/// Roads of `roads`; none when there are issues or no such key.
struct RoadsRead {
  std::optional<RoadMap> map;
  std::optional<Farm::Input> input;
};
RoadsRead read_roads(const Object& top, const Folder& folder);
/// The farm with the ways between its fields.
Farm with_ways(Farm farm, const Object& top, const std::optional<RoadMap>& roads);

/// The column that holds `what`; an issue when the mapping names one that is not there.
std::optional<std::string> column_for(const Object& part, const geo::Layer& layer, const std::string& what,
                                      bool needed);
/// The text of a feature's column; empty without one.
std::string cell_of(const geo::Feature& f, const std::optional<std::string>& column);
machinery::BaleSettings read_bales(const Object& top);
struct ReadStacking {
  Stacking stacking;
  std::optional<Farm::Input> input;
};
ReadStacking read_stacking(const Object& top, const Folder& folder);

/// What is known of a field where a burn is asked for.
BurnFacts read_burn_facts(const Object& values);
struct BurnCalls {
  std::vector<burn::DayCall> calls;
  std::optional<Farm::Input> input;
};
/// The table of `burn_days`; its faulty rows are issues.
BurnCalls read_burn_calls(const Object& top, const Folder& folder);

/// A layer or table as text in canonical order.
std::string canonical_rows(const geo::Layer& layer);
/// The layer, or nothing and its issues told.
std::optional<geo::Layer> open_layer(const Object& part, const Folder& folder);

struct WeatherRows {
  std::vector<weather::Row> rows;
  std::optional<Farm::Input> input;
};
/// The rows of `weather` or `forecast`; empty when there are issues.
WeatherRows read_weather_rows(const Object& part, const Folder& folder);
weather::GapRules read_gap_rules(const Object& weather);

}  // namespace aftercut::farm

#pragma once
// Room farm, lead header. Purpose: the whole problem as one checked value. Takes a farm folder; gives Farm,
// or every issue in it at once. Leaves out weather physics, plans and the journal. Order: fields by natural
// order of their ids; machines and operators too. Nothing depends on the order in the files.

#include <optional>
#include <string>
#include <vector>

#include "aftercut/burn/day_calls.hpp"
#include "aftercut/burn/rules.hpp"
#include "aftercut/core/date.hpp"
#include "aftercut/core/ids.hpp"
#include "aftercut/core/quantity.hpp"
#include "aftercut/farm/environment.hpp"
#include "aftercut/farm/field_fit.hpp"
#include "aftercut/farm/history.hpp"
#include "aftercut/farm/stacks.hpp"
#include "aftercut/farm/travel.hpp"
#include "aftercut/farm/yield_map.hpp"
#include "aftercut/geo/shape.hpp"
#include "aftercut/machinery/bales.hpp"
#include "aftercut/machinery/machines.hpp"
#include "aftercut/method/recipe.hpp"
#include "aftercut/soil/water.hpp"
#include "aftercut/straw/burial.hpp"
#include "aftercut/straw/load.hpp"
#include "aftercut/straw/moisture.hpp"
#include "aftercut/straw/pools.hpp"
#include "aftercut/water/flood.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::farm {

/// The season as an index range: day 0 is `first`.
struct Calendar {
  Date first;
  int days = 0;
  [[nodiscard]] Date date(int day) const { return first + day; }
  [[nodiscard]] int day(Date d) const { return d - first; }
  /// The season day that falls on `md`; each month-day occurs at most once in a season of at most 365 days.
  [[nodiscard]] int day(MonthDay md) const { return next_on(md, first) - first; }
};

enum class UnitSystem { si, us };
enum class GroundState { firm, tracked, rutted };

struct Ground {
  GroundState state = GroundState::firm;
  double share = 0.0;       ///< of the area tracked or rutted
  double depth_mm = 0.0;    ///< of ruts
  double slow_share = 0.0;  ///< by which the slowest part dries slower than the mean, 0 to 0.9
  int slow_days = 0;        ///< by which it dries later, beside the share
};

/// What combine and grain wagons leave where the ground does not carry them. Source: CombineRuts (assumed)
struct CombineRuts {
  double share = 0.2;  ///< of the field
  double depth_mm = 100.0;
};

enum class NextUseKind { rice, fallow, other };

/// Yield lost by planting late: kg/ha of grain lost if planted on the day, linear between nodes.
struct LateNode {
  Date day;
  double loss_kg_per_ha = 0.0;
};

struct NextUse {
  NextUseKind kind = NextUseKind::rice;
  std::optional<Date> window_opens;          ///< planting not wanted before
  Date planting;                             ///< the day by which the seedbed should be ready
  int order = 0;                             ///< planting order asked for; 0: none
  std::vector<LateNode> late_curve;          ///< by readiness day; empty for fallow
  Date cut_off;                              ///< not ready by then: stays unplanted
  std::optional<double> wanted_chance = {};  ///< of being ready in time; none: the farm's
  bool own_late_curve = false;               ///< the field's own: before the farm's price of a late day
};

struct NotAllowed {
  MethodId method;
  std::string why;  ///< landlord, lease, ...
};

/// Water held for birds (or another lease): boards stay in until then.
struct WaterLease {
  Date from, until;
  Money per_ha;  ///< paid when water stood on the field the whole time asked for
};

enum class LinkKind { fills_from, drains_to, seeps_from };
struct Link {
  LinkKind kind = LinkKind::fills_from;
  FieldId other;
};

/// What is known of a field beside its straw where a burn is asked for.
struct BurnFacts {
  std::optional<std::string> zone;
  std::optional<std::string> leave;  ///< the authority's individual leave, in its words
  std::vector<burn::Sample> samples;
  std::optional<int> clean_years;  ///< whole years since a breach of the burn rules
  std::optional<int> people;       ///< at a burn of this field, crew included
  std::optional<double> water_l, firebreak_m;
  std::optional<Date> dryness_test;     ///< day on which the straw passed one
  std::optional<std::string> ignition;  ///< manner of lighting
};

struct Field {
  FieldId id;
  std::string name;
  geo::Shape shape;
  bool invented_shape = false;          ///< a rectangle of the stated area
  Hectare area;                         ///< geodesic, holes out; or as entered where the shape is invented
  std::size_t soil = 0;                 ///< index into Farm::soils
  bool cut = false;                     ///< harvested already
  Date harvest;                         ///< done on, or expected
  KgPerHa straw_load;                   ///< oven-dry above-ground straw
  bool load_given = false;              ///< entered rather than from the yield
  std::optional<KgPerHa> grain;         ///< as delivered
  straw::Lay lay = straw::Lay::spread;  ///< for a cut field: fact
  double cut_height_cm = 30.0;          ///< for a cut field: fact
  Ground ground;
  NextUse next;
  std::vector<NotAllowed> not_allowed;
  std::optional<WaterLease> lease;
  bool can_flood = true;                   ///< the canal reaches it
  bool holds_water = true;                 ///< levees and boards in order
  DiseaseHistory disease;                  ///< what is known of stem rot and sheath spot
  std::optional<bool> disease_finding;     ///< written finding for burning, where the rules ask for one
  std::optional<std::string> burn_answer;  ///< the authority's words
  std::string pooled_ticket;       ///< yield shared out from one ticket over several fields; empty: own
  std::optional<MethodId> locked;  ///< the user fixed the method
  Date summer_drain;               ///< water off the standing crop
  std::vector<geo::Path> levees;
  std::vector<Link> links;
  BurnFacts burn;
  std::vector<PastSeason> history;  ///< earlier seasons, oldest first
};

enum class PlaceKind { home, school, road, power_line, canal, trees, other };
struct Place {
  std::string name;
  PlaceKind kind = PlaceKind::other;
  geo::Shape shape;
};

struct Operator {
  OperatorId id;
  std::string name;
  std::vector<std::string> skills;
  Money wage_per_h;
  bool paid = true;  ///< wages leave the pocket; false: the owner's own time
  Hours hours_per_day{9.0};
  std::vector<machinery::DateRange> away;  ///< days off, held by harvest, before the start or after the end
  std::vector<int> weekdays_off;           ///< 0 Monday
};

struct Prices {
  Money diesel_per_l;
  Money grain_per_kg;
  Money straw_per_tonne;  ///< as baled, at the stack; 0: given away
  Money twine_per_tonne;
  Money burn_fee_per_ha;
  Money unplanted_per_ha;  ///< margin lost on a field that stays unplanted
  NutrientPrices nutrients;
  double lubricant_share = 0.15;  ///< of fuel cost
  int price_year = 0;
  Money straw_per_ha{};    ///< beside the price by mass, for each area baled
  Money straw_per_bale{};  ///< beside it, for each bale
};

/// The storm that fall-backs are held against: of the wettest days in a row that each weather year had at
/// that time of the season, the one that so many years go beyond. Source: OneStorm (assumed)
struct StormSettings {
  int days = 3;
  double one_year_in = 10.0;
};

/// What makes a plan sure (docs/risk.md): lateness costs money, the wanted chance is a constraint, or both.
enum class Risk { price, chance, both };

struct Target {
  double wanted_chance = 0.8;  ///< of each field being ready by its planting date
  Risk risk = Risk::price;
  std::optional<Money> late_per_ha_day = {};  ///< a late day's price; none: the late curves and the grain
  Money toss_up_per_ha{10.0};  ///< two methods within it are a toss-up. Source: TossUp (assumed)
  double straw_price_spread = 0.25, diesel_price_spread = 0.15;  ///< either way. Source: TossUp (assumed)
  StormSettings storm;
  /// What a change of the plan that stands has to gain on its field when a plan is made again. Source:
  /// ChangeGain (assumed)
  Money change_gain_per_ha{15.0};
};

struct WorkDay {
  Hours move_between_fields{1.0 / 3.0};  ///< fold, unfold, settle; the way itself comes on top
  KmPerHour road_speed{20.0};            ///< Source: RoadSpeed (assumed)
  double detour = 1.3;  ///< way over straight distance, where no roads are drawn. Source: Detour (assumed)
  int least_stay_min = 30;            ///< no move for less, unless it ends the pass
  double shift_start_h = 7.0;         ///< clock hour, standard time
  Hours hours_for_area_per_day{9.0};  ///< turns an entered 'area per day' into an hourly rate
};

/// A checked farm.
struct Farm {
  std::string name;
  std::string currency;
  UnitSystem units = UnitSystem::si;
  Calendar season;
  weather::Site site;
  std::vector<soil::Profile> soils;
  std::vector<Field> fields;
  YieldMap yield_map;  ///< how straw varies inside fields
  std::vector<Place> places;
  std::vector<machinery::Tractor> tractors;
  std::vector<machinery::Implement> implements;
  std::vector<Operator> operators;
  std::vector<std::vector<FieldFit>> fits;  ///< [field][implement]; empty for a farm made without its reader
  Travel travel;
  std::optional<RoadMap> roads;  ///< as drawn; none where the outlines of fields are invented
  bool levees_part = true;  ///< machines work the checks between levees one by one; false: they drive across
  std::optional<water::Supply> supply;        ///< none: no canal water
  std::optional<burn::Jurisdiction> burning;  ///< none: burning stays unknown
  std::vector<burn::DayCall> burn_calls;      ///< the authority's calls as they were, rising by day
  method::Book book;
  Prices prices;
  Target target;
  WorkDay work_day;
  soil::TrafficLimits traffic;
  CombineRuts combine_ruts;
  /// Days after the last pass of another kind for which too dry ground holds finishing passes back; then they
  /// are done all the same. Source: DryWait (assumed)
  int most_dry_wait_days = 3;
  straw::DecaySettings decay;
  straw::MoistureSettings moisture;
  straw::BurialSettings burial;
  EnvironmentSettings environment;
  double bale_moisture_percent = 14.0;  ///< wet basis limit
  machinery::BaleSettings bales;
  Stacking stacking;
  std::vector<std::string>
      notes;  ///< repairs, overlaps, overrides: what the reader did and found, for the report
  struct Input {
    std::string path;
    std::string sha256;
    bool in_season = false;  ///< grows as the season goes on: journal, weather so far, forecast
  };
  std::vector<Input> inputs;  ///< digests of the rows in canonical order
};

}  // namespace aftercut::farm

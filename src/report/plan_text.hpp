#pragma once
// plan.json read back into the values that sheets and exports show. Internal to the room: nothing but the
// text is asked.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "aftercut/core/date.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut::report::sheets {

struct Days {
  Date p10, p50, p90;
};

struct Job {
  std::string operation;
  int step = 0, pass = 0;
  bool fell_back = false;
  int years_done = 0, years = 0;
  Days first, last;
};

struct FallBack {
  std::string kind, trigger, instead;
  std::optional<std::string> method;
  std::optional<Date> start_by, method_start_by;
  double chance_taken = 0.0;
};

struct Outcome {
  std::string id;
  bool possible = false;
  std::vector<std::string> why_not;
  double cost = 0.0, cost_per_ha = 0.0, labour_h = 0.0, fuel_l = 0.0, water_m3 = 0.0, straw_left = 0.0;
  std::optional<std::string> ready;  ///< middle one: a date, "not by DATE"; none: nothing is due
  double chance_ready = 0.0;
  std::optional<Date> last_start;
  double co2e = 0.0, co2e_low = 0.0, co2e_high = 0.0;  ///< kg/ha
};

struct Field {
  std::string id, name, soil, next_use, lay;
  double area_ha = 0.0, load = 0.0, standing = 0.0, loose = 0.0, cut_height_cm = 0.0;
  bool cut = false, chopper = false, locked = false, toss_up = false;
  Date harvest;
  std::optional<Date> planting, cut_off;
  std::optional<std::string> method, next_best;
  double next_best_saves_per_ha = 0.0;
  std::vector<std::string> because, decides, history;
  std::vector<FallBack> hangs_on;
  std::vector<Job> jobs;
  std::vector<Outcome> methods;
  std::optional<double> rut_chance, unplanted_chance;
};

struct Row {
  std::string field, operation;
  bool fell_back = false, stands_by = false;
  int step = 0, pass = 0;
  std::optional<std::string> machine, tractor;
  std::vector<std::string> operators;
  Date day;
  std::string start, end;  ///< "07:00"
  double area_ha = 0.0;
};

struct Operation {
  std::string name, implement, water;
  bool tillage = false, burning = false;
};
struct Method {
  std::string name, summary, water;
  bool bales = false, burns = false;
};
struct WaterDay {
  std::string field;
  Date day;
  double m3 = 0.0;
};
struct KeepDate {
  Date by;
  std::string what, why;
  std::optional<std::string> source;
  std::vector<std::string> fields;
  bool worked_out = false;
};
struct Month {
  std::string month;
  std::vector<double> parts;  ///< as in Plan::cash_parts
  double sum = 0.0, p10 = 0.0, p90 = 0.0;
};
struct Worth {
  std::string kind, unit;
  std::optional<std::string> id;
  double more = 0.0, worth = 0.0, error = 0.0;
  bool told = false;
};
struct Caution {
  std::string about, text, source;
  std::vector<std::string> fields;
};

struct Plan {
  std::string farm, currency;
  bool us = false;
  Date as_of;
  std::optional<Date> forecast_until;
  int weather_years = 0, schedule_year = 0;
  std::map<std::string, Method> methods;
  std::map<std::string, Operation> operations;
  std::map<std::string, std::string> machines, operators;  ///< names by id
  std::vector<std::string> operator_ids;                   ///< in the plan's order
  std::optional<std::string> authority;
  std::vector<Field> fields;
  std::vector<Row> schedule;
  std::vector<WaterDay> water;
  std::vector<KeepDate> dates;
  std::vector<std::string> cash_parts;
  std::vector<Month> cash;
  double cost = 0.0, full_cost = 0.0;
  std::optional<double> bound, gap, gap_percent;
  std::optional<std::vector<Worth>> one_more;  ///< none: not worked out
  std::vector<Caution> cautions;
  bool audit_ok = true;
};

/// Issues: not JSON; every place that departs from docs/schema/plan.schema.json; days that do not exist; a
/// field twice.
Result<Plan> read_plan_text(const std::string& plan_json);

}  // namespace aftercut::report::sheets

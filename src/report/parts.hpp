#pragma once
// What the files of this room share: rounding, look-ups and plain words. Internal to the room.

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "aftercut/audit/audit.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/farm/wishes.hpp"
#include "aftercut/plan/plan.hpp"

namespace aftercut::report {

using json = nlohmann::ordered_json;

/// A finite number rounded half away from zero to `digits` decimals, never minus zero.
double rounded(double x, int digits);
double money(std::int64_t cents);              ///< in the currency, 2 decimals
std::string date_time(Date day, int minutes);  ///< "2026-10-03T07:00"; 1440 is the next day's 00:00
std::string words(straw::Lay lay);             ///< "windrow", "spread", "chopped"
/// The run of `year`; throws when it was not played.
const plan::YearRun& run_of(const plan::PlannedYears& planned, int year);
/// The season day as a date, the words "not by <cut-off>", or null where nothing is due.
json ready_json(const farm::Farm& farm, const farm::Field& field, std::optional<int> day);
template <class T>
json id_or_null(const std::vector<T>& all, int index) {
  if (index == plan::none) return nullptr;
  return all.at(static_cast<std::size_t>(index)).id.value;
}
json ids_of(const farm::Farm& farm, const std::vector<int>& fields);

double total_area_ha(const farm::Farm& farm);
/// What every file of a farm begins with: its name, units, currency and as-of day.
json farm_head_json(const farm::Problem& problem);
json audit_counts_json(const audit::Audit& audit);
/// [field] its id and its method's, null: none.
json methods_json(const farm::Farm& farm, const plan::Decision& decision);

/// Text between HTML tags; in an attribute quotation marks are written out too.
std::string html_text(std::string_view text);
std::string html_attribute(std::string_view text);
/// A cell of a comma-separated table: quoted where it must be (RFC 4180).
std::string csv_cell(const std::string& text);

/// Shown units. Numbers in, text or factors out; names are those of the farm's unit system.
struct Units {
  const char* area;           ///< "ac" or "ha"
  const char* mass_per_area;  ///< "lb/ac" or "kg/ha"
  const char* fuel;           ///< "gal" or "L"
  const char* water;          ///< "acre-ft" or "m3"
  const char* length;         ///< "in" or "cm"
  double area_per_ha, mass_per_kg_ha, fuel_per_l, water_per_m3, length_per_cm;
};
const Units& units_of(farm::UnitSystem system);
const Units& units_of(const farm::Farm& farm);

std::string short_date(Date day);      ///< "3 Oct"
std::string with_thousands(double x);  ///< to the nearest whole number: "12,340"
/// "9 years in 10", rounded down so that nothing looks surer than it is; "every year", "no year", "under 1 in
/// 10" at the ends.
std::string chance_words(double chance);
/// Out of pocket by the farm's measure of land, a whole number.
std::string cost_per_area(const farm::Farm& farm, const farm::Field& field, const plan::MethodOutcome& m);
/// The day that a seedbed is ready as a short date, "not by <cut-off>" without a day, `nothing_due` where
/// none is wanted.
std::string ready_words(const farm::Farm& farm, const farm::Field& field, const std::optional<int>& day,
                        const char* nothing_due);
inline constexpr std::size_t terminal_width = 100;
/// Cut to `width` characters (not bytes), the last one "…" where something was left out, then padded.
std::string fit(const std::string& text, std::size_t width, bool right = false);
/// Words wrapped to lines of at most `width` characters, later lines indented by `indent` spaces.
std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

json fields_json(const farm::Problem& problem, const plan::PlannedYears& planned);
json schedule_json(const farm::Farm& farm, const plan::YearRun& run);
json fall_back_json(const farm::Farm& farm, int method);
/// What the chosen method hangs on first, null: nothing; and what else.
json chosen_fall_back_json(const farm::Farm& farm, const plan::Plan& plan, std::size_t field);
json more_fall_backs_json(const farm::Farm& farm, const plan::Plan& plan, std::size_t field);
json fall_back_tests_json(const farm::Farm& farm, const plan::Plan& plan);
json dates_to_keep_json(const farm::Farm& farm, const plan::Plan& plan);
json cash_json(const plan::Plan& plan);
/// The same for the terminal, short; empty where there is nothing to tell.
std::string others_text(const farm::Farm& farm, const plan::Plan& plan);
json ready_days_json(const farm::Farm& farm, const farm::Field& field, const plan::FieldPlan& p);
json winter_json(const farm::Farm& farm, const farm::Field& field, const plan::FieldPlan& p);
json environment_json(const plan::Environment& environment, double area_ha);
json environment_settings_json(const farm::Farm& farm);
/// Every possible method of a field: CO2e, nitrogen, disease, waterfowl, as a table for the terminal.
std::string environment_table(const farm::Farm& farm, const plan::FieldPlan& field);

}  // namespace aftercut::report

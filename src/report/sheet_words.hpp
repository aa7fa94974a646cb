#pragma once
// Words that sheets and exports share: when a job comes, names, shown units. Internal to the room.

#include "aftercut/report/exports.hpp"
#include "plan_text.hpp"

namespace aftercut::report::sheets {

inline constexpr Language en = Language::english;  ///< of all but work lists and the combine card

/// When a job comes: by the day inside the forecast, else from the week of `from` to the week of `to`
/// (Mondays).
struct When {
  bool to_the_day = false;
  Date from, to;
};
When when_of(const Job& job, const std::optional<Date>& forecast_until);
/// "on 12 Oct", "12 to 14 Oct", "in the week of 12 Oct", "between the weeks of 12 Oct and 26 Oct".
std::string when_words(const When& when, Language language);
/// For a narrow column: "12 Oct", "12 Oct – 14 Oct", "week of 12 Oct", "weeks of 12 Oct – 26 Oct".
std::string short_when(const When& when, Language language);
std::string day_words(Date day, Language language);      ///< "12 Oct", "12 oct"
std::string weekday_words(Date day, Language language);  ///< "Mon", "lun"
std::string full_date(Date day, Language language);      ///< "Mon 12 Oct 2026"

/// The name; the id where there is none.
std::string method_name(const Plan& plan, const std::optional<std::string>& id, Language language);
std::string operation_name(const Plan& plan, const std::string& id, Language language);
std::string machine_name(const Plan& plan, const std::string& id);
std::string operator_name(const Plan& plan, const std::string& id);
std::string field_label(const Field& field);  ///< "7 · Long check", or the id alone
std::string field_label(const Plan& plan, const std::string& id);
/// Ids joined: "1, 2, 5".
std::string list_of(const std::vector<std::string>& texts, const char* between = ", ");

/// The stretch is of this job on this field.
bool same_job(const Row& row, const Field& field, const Job& job);
/// The first stretch of the shown year that is this job; null: none.
const Row* row_of(const Plan& plan, const Field& field, const Job& job);
/// People and machines of the stretch, by name: "Ana: big tractor + disk"; empty: none known.
std::string who_with(const Plan& plan, const Row* row);
/// The next thing to do: the earliest pass of the method's own steps that at least half of the years bring,
/// else the earliest at all; null: none.
const Job* next_job(const Field& field);
const Outcome* chosen_outcome(const Field& field);  ///< null: no method
const Method* chosen_method(const Plan& plan, const Field& field);

std::string area_words(const Plan& plan, double ha);
std::string mass_words(const Plan& plan, double kg_per_ha);
std::string length_words(const Plan& plan, double cm);
std::string water_words(const Plan& plan, double m3);
std::string money_words(const Plan& plan, double money);  ///< whole: "12,340 USD"
/// "27 Apr" inside the forecast, else "week of 26 Apr"; "not by 30 May".
std::string ready_text(const Plan& plan, const std::string& ready);
std::string capital(std::string text);  ///< first letter large

}  // namespace aftercut::report::sheets

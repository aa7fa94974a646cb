#include "sheet_words.hpp"

#include <algorithm>
#include <array>

#include "aftercut/core/week.hpp"
#include "parts.hpp"
#include "spanish.hpp"

namespace aftercut::report::sheets {
namespace {

constexpr std::array<const char*, 12> months_es{"ene", "feb", "mar", "abr", "may", "jun",
                                                "jul", "ago", "sep", "oct", "nov", "dic"};
constexpr std::array<const char*, 7> weekdays_en{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
constexpr std::array<const char*, 7> weekdays_es{"lun", "mar", "mié", "jue", "vie", "sáb", "dom"};

std::string named(const std::map<std::string, std::string>& names, const std::string& id) {
  const auto at = names.find(id);
  return at == names.end() || at->second.empty() ? id : at->second;
}

const Units& units_of_plan(const Plan& plan) {
  return units_of(plan.us ? farm::UnitSystem::us : farm::UnitSystem::si);
}

}  // namespace

When when_of(const Job& job, const std::optional<Date>& forecast_until) {
  if (forecast_until && job.last.p90 <= *forecast_until) return {true, job.first.p50, job.last.p50};
  return {false, week_start(job.first.p10), week_start(job.last.p90)};
}

std::string day_words(Date day, Language language) {
  if (language == Language::english) return aftercut::day_words(day);
  return fmt::format("{} {}", day_of_month(day), months_es.at(static_cast<std::size_t>(month_of(day) - 1)));
}

std::string weekday_words(Date day, Language language) {
  const auto at = static_cast<std::size_t>(weekday(day));
  return language == Language::english ? weekdays_en.at(at) : weekdays_es.at(at);
}

std::string full_date(Date day, Language language) {
  return fmt::format("{} {} {}", weekday_words(day, language), day_words(day, language), year_of(day));
}

std::string when_words(const When& when, Language language) {
  const std::string from = day_words(when.from, language), to = day_words(when.to, language);
  const bool one = when.from == when.to;
  if (language == Language::english) {
    if (when.to_the_day) return one ? "on " + from : fmt::format("{} to {}", from, to);
    return one ? "in the week of " + from : fmt::format("between the weeks of {} and {}", from, to);
  }
  if (when.to_the_day) return one ? "el " + from : fmt::format("del {} al {}", from, to);
  return one ? "en la semana del " + from : fmt::format("entre las semanas del {} y del {}", from, to);
}

std::string short_when(const When& when, Language language) {
  const std::string from = day_words(when.from, language), to = day_words(when.to, language);
  const bool one = when.from == when.to;
  const std::string span = one ? from : from + " – " + to;
  if (when.to_the_day) return span;
  if (language == Language::english) return (one ? "week of " : "weeks of ") + span;
  return (one ? "semana del " : "semanas del ") + span;
}

std::string method_name(const Plan& plan, const std::optional<std::string>& id, Language language) {
  if (!id) return language == Language::english ? "no method is open" : "ningún método queda";
  if (language == Language::spanish)
    if (const auto name = spanish_method(*id)) return *name;
  const auto at = plan.methods.find(*id);
  return at == plan.methods.end() || at->second.name.empty() ? *id : at->second.name;
}

std::string operation_name(const Plan& plan, const std::string& id, Language language) {
  if (language == Language::spanish)
    if (const auto name = spanish_operation(id)) return *name;
  const auto at = plan.operations.find(id);
  return at == plan.operations.end() || at->second.name.empty() ? id : at->second.name;
}

std::string machine_name(const Plan& plan, const std::string& id) { return named(plan.machines, id); }
std::string operator_name(const Plan& plan, const std::string& id) { return named(plan.operators, id); }

std::string field_label(const Field& f) {
  return f.name.empty() || f.name == f.id ? f.id : f.id + " · " + f.name;
}

std::string field_label(const Plan& plan, const std::string& id) {
  const auto at = std::ranges::find(plan.fields, id, &Field::id);
  return at == plan.fields.end() ? id : field_label(*at);
}

std::string list_of(const std::vector<std::string>& texts, const char* between) {
  std::string out;
  for (const std::string& t : texts) out += (out.empty() ? "" : between) + t;
  return out;
}

bool same_job(const Row& r, const Field& f, const Job& j) {
  return r.field == f.id && r.operation == j.operation && r.step == j.step && r.pass == j.pass &&
         r.fell_back == j.fell_back;
}

const Row* row_of(const Plan& plan, const Field& field, const Job& job) {
  for (const Row& r : plan.schedule)
    if (!r.stands_by && same_job(r, field, job)) return &r;
  return nullptr;
}

std::string who_with(const Plan& plan, const Row* row) {
  if (row == nullptr) return "";
  std::vector<std::string> people, things;
  for (const std::string& o : row->operators) people.push_back(operator_name(plan, o));
  for (const auto& m : {row->tractor, row->machine})
    if (m) things.push_back(machine_name(plan, *m));
  const std::string who = list_of(people, " + "), with = list_of(things, " + ");
  return who + (who.empty() || with.empty() ? "" : ": ") + with;
}

const Job* next_job(const Field& field) {
  const Job* any = nullptr;
  for (const Job& j : field.jobs) {
    if (j.fell_back) continue;
    if (2 * j.years_done >= j.years) return &j;
    if (any == nullptr) any = &j;
  }
  return any;
}

const Outcome* chosen_outcome(const Field& field) {
  if (!field.method) return nullptr;
  const auto at = std::ranges::find(field.methods, *field.method, &Outcome::id);
  return at == field.methods.end() ? nullptr : &*at;
}

const Method* chosen_method(const Plan& plan, const Field& field) {
  const auto at = field.method ? plan.methods.find(*field.method) : plan.methods.end();
  return at == plan.methods.end() ? nullptr : &at->second;
}

std::string area_words(const Plan& plan, double ha) {
  const Units& u = units_of_plan(plan);
  return fmt::format("{:.1f} {}", ha * u.area_per_ha, u.area);
}

std::string mass_words(const Plan& plan, double kg_per_ha) {
  const Units& u = units_of_plan(plan);
  return fmt::format("{} {}", with_thousands(kg_per_ha * u.mass_per_kg_ha), u.mass_per_area);
}

std::string length_words(const Plan& plan, double cm) {
  const Units& u = units_of_plan(plan);
  return fmt::format("{:.0f} {}", cm * u.length_per_cm, u.length);
}

std::string water_words(const Plan& plan, double m3) {
  const Units& u = units_of_plan(plan);
  if (plan.us) return fmt::format("{:.1f} {}", m3 * u.water_per_m3, u.water);
  return with_thousands(m3) + " m³";
}

std::string money_words(const Plan& plan, double money) {
  return with_thousands(money) + " " + plan.currency;
}

std::string ready_text(const Plan& plan, const std::string& ready) {
  const bool late = ready.starts_with("not by ");
  const auto day = parse_iso_date(late ? ready.substr(7) : ready);
  if (!day) return ready;
  if (late) return "not by " + aftercut::day_words(*day);
  return plan.forecast_until && *day <= *plan.forecast_until ? aftercut::day_words(*day) : week_words(*day);
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace aftercut::report::sheets

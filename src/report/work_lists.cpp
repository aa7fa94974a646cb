// Work lists: a page for each operator, today and the seven days from today, with the cautions that touch the
// jobs on it.

#include <algorithm>
#include <set>

#include "exports_parts.hpp"
#include "parts.hpp"
#include "sheet_html.hpp"
#include "sheet_words.hpp"
#include "spanish.hpp"

namespace aftercut::report::sheets {
namespace {

constexpr int days_listed = 7;

const char* const list_style =
    "td,th{font-size:12.5pt}th{font-size:11pt}.job{font-weight:700}.done{width:16mm}"
    ".number{width:9mm}"
    ".caution{font-size:10.5pt}.caution li{margin:0}.caution "
    "small{font-size:8.5pt}section{break-inside:auto}h2{break-after:avoid}";

/// One job of the list: with the stretch that does it in the year shown, where there is one.
struct Listed {
  const Field* field = nullptr;
  const Job* job = nullptr;  ///< null: a stretch inside the forecast
  const Row* row = nullptr;
  std::string operation;
};

struct PersonsList {
  std::string name;
  std::vector<Listed> today, week, order;
  [[nodiscard]] bool empty() const { return today.empty() && week.empty() && order.empty(); }
};

Date last_listed(const Plan& plan) { return plan.as_of + (days_listed - 1); }

/// The last listed day that the forecast covers; none: not even today.
std::optional<Date> known_until(const Plan& plan) {
  if (!plan.forecast_until || *plan.forecast_until < plan.as_of) return std::nullopt;
  return std::min(*plan.forecast_until, last_listed(plan));
}

bool is_for(const Row* row, const std::optional<std::string>& person) {
  const bool nobody = row == nullptr || row->operators.empty();
  return person ? !nobody && std::ranges::count(row->operators, *person) > 0 : nobody;
}

void add_known_days(const Plan& plan, const std::optional<std::string>& person, PersonsList& out) {
  const auto until = known_until(plan);
  if (!until) return;
  for (const Row& r : plan.schedule) {
    const auto field = std::ranges::find(plan.fields, r.field, &Field::id);
    if (field == plan.fields.end() || r.day < plan.as_of || r.day > *until || !is_for(&r, person)) continue;
    (r.day == plan.as_of ? out.today : out.week).push_back({&*field, nullptr, &r, r.operation});
  }
}

/// Jobs that come into the listed days in some years and have no day yet.
void add_order(const Plan& plan, const std::optional<std::string>& person, PersonsList& out) {
  const auto until = known_until(plan);
  for (const Field& f : plan.fields)
    for (const Job& j : f.jobs) {
      if (j.first.p10 > last_listed(plan)) continue;
      const bool has_day = until && std::ranges::any_of(plan.schedule, [&](const Row& r) {
                             return !r.stands_by && same_job(r, f, j) && r.day <= *until;
                           });
      const Row* row = row_of(plan, f, j);
      if (!has_day && is_for(row, person)) out.order.push_back({&f, &j, row, j.operation});
    }
  std::ranges::stable_sort(out.order, {}, [](const Listed& l) { return l.job->first.p50; });
}

PersonsList list_for(const Plan& plan, const std::optional<std::string>& person, Language language) {
  PersonsList out{.name = person ? operator_name(plan, *person) : told("Not given to anyone yet", language),
                  .today = {},
                  .week = {},
                  .order = {}};
  add_known_days(plan, person, out);
  add_order(plan, person, out);
  return out;
}

std::string with_words(const Plan& plan, const Listed& l, Language language) {
  std::vector<std::string> things;
  if (l.row != nullptr)
    for (const auto& id : {l.row->tractor, l.row->machine})
      if (id) things.push_back(machine_name(plan, *id));
  if (!things.empty()) return list_of(things, " + ");
  const auto op = plan.operations.find(l.operation);
  if (l.row != nullptr || op == plan.operations.end() || op->second.implement.empty())
    return told("by hand", language);
  std::string kind = op->second.implement;
  if (language == Language::spanish)
    if (const auto known = spanish_machine_kind(kind)) return *known;
  std::replace(kind.begin(), kind.end(), '_', ' ');
  return kind;
}

std::string job_html(const Plan& plan, const Listed& l, Language language) {
  const bool waits = l.job == nullptr && l.row->stands_by;
  const bool fell_back = l.job != nullptr ? l.job->fell_back : l.row->fell_back;
  const int pass = l.job != nullptr ? l.job->pass : l.row->pass;
  std::string name = capital(operation_name(plan, l.operation, language));
  if (pass > 0) name += fmt::format(", {} {}", told("pass", language), pass + 1);
  std::string out = tagged("span", name, "job");
  if (waits) out += "<br>" + html_text(told("stand by for the call", language));
  if (fell_back) out += "<br>" + html_text(told("only if the method falls back", language));
  return out;
}

std::string known_table(const Plan& plan, const std::vector<Listed>& rows, Language language) {
  std::string out = "<table>" + columns({10, 12, 17, 19, 24, 10, 8}) +
                    table_head({told("Day", language), told("Time", language), told("Field", language),
                                told("Job", language), told("With", language), told("Area", language),
                                told("Done", language)}) +
                    "<tbody>\n";
  for (const Listed& l : rows)
    out += table_row({html_text(weekday_words(l.row->day, language) + " " + day_words(l.row->day, language)),
                      html_text(l.row->start + " – " + l.row->end), html_text(field_label(*l.field)),
                      job_html(plan, l, language), html_text(with_words(plan, l, language)),
                      l.row->stands_by ? "–" : html_text(area_words(plan, l.row->area_ha)), ""});
  return out + "</tbody></table>\n";
}

std::string order_table(const Plan& plan, const std::vector<Listed>& rows, Language language) {
  std::string out = "<table>" + columns({5, 22, 22, 24, 19, 8}) +
                    table_head({"", told("Job", language), told("Field", language), told("With", language),
                                told("When", language), told("Done", language)}) +
                    "<tbody>\n";
  int number = 0;
  for (const Listed& l : rows)
    out +=
        table_row({fmt::format("{}", ++number), job_html(plan, l, language),
                   html_text(field_label(*l.field)) + "<br>" + html_text(area_words(plan, l.field->area_ha)),
                   html_text(with_words(plan, l, language)),
                   html_text(capital(when_words(when_of(*l.job, plan.forecast_until), language))), ""});
  return out + "</tbody></table>\n";
}

/// Whether a caution of this subject has to do with such a job; a subject that is not known always has.
bool touches(const std::string& about, const Operation& op) {
  const bool bales = op.implement == "baler" || op.implement == "bale_wagon";
  if (about == "burning" || about == "smoke") return op.burning;
  if (about == "lines") return op.burning || bales;
  if (about == "stacks" || about == "bales") return bales;
  if (about == "machine fires") return op.implement == "baler";
  if (about == "dust") return op.tillage || op.implement == "chopper";
  if (about == "flooded ground") return op.water != "none" || op.implement == "cage_roller";
  if (about == "shafts" || about == "mud" || about == "overturns" || about == "roads")
    return !op.implement.empty() && op.implement != "torch";
  return true;
}

std::string caution_text(const Caution& c, std::size_t nth, Language language) {
  if (language == Language::spanish)
    if (const auto text = spanish_caution(c.about, nth)) return *text;
  return c.text;
}

std::string cautions_html(const Plan& plan, const PersonsList& list, Language language) {
  std::string out;
  std::map<std::string, std::size_t> seen;  // of each subject so far
  for (const Caution& c : plan.cautions) {
    const std::size_t nth = seen[c.about]++;
    const auto hits = [&](const Listed& l) {
      const auto op = plan.operations.find(l.operation);
      return std::ranges::count(c.fields, l.field->id) > 0 &&
             (op == plan.operations.end() || touches(c.about, op->second));
    };
    if (!std::ranges::any_of(list.today, hits) && !std::ranges::any_of(list.week, hits) &&
        !std::ranges::any_of(list.order, hits))
      continue;
    const std::string source = language == Language::spanish ? spanish_source(c.source) : c.source;
    out += "<li>" + html_text(caution_text(c, nth, language)) + " " + tagged("small", "[" + source + "]") +
           "</li>\n";
  }
  return out.empty()
             ? ""
             : tagged("h2", told("Take care", language)) + "<ul class=\"caution\">\n" + out + "</ul>\n";
}

std::string lead_html(const Plan& plan, Language language) {
  std::string out = tagged("p", told("Plan of", language) + " " + full_date(plan.as_of, language)) + "\n";
  const auto until = known_until(plan);
  if (!until)
    out += tagged(
        "p", told("No forecast covers these days, so they have an order and weeks but no hours.", language));
  else if (*until < last_listed(plan))
    out += tagged(
        "p", fmt::format("{} {}; {}", told("The forecast ends on", language), full_date(*until, language),
                         told("later work has an order and weeks but no hours.", language)));
  return out + "\n";
}

std::string person_html(const Plan& plan, const PersonsList& list, Language language) {
  std::string out = "<section class=\"sheet\">" +
                    tagged("h1", told("Work list", language) + ": " + list.name) + "\n" +
                    lead_html(plan, language);
  if (list.empty()) out += tagged("p", told("No work is planned for these days.", language)) + "\n";
  if (!list.today.empty())
    out += tagged("h2", told("Today", language)) + known_table(plan, list.today, language);
  if (!list.week.empty())
    out += tagged("h2", told("This week", language)) + known_table(plan, list.week, language);
  if (!list.order.empty()) {
    const bool later = !list.today.empty() || !list.week.empty();
    out += tagged("h2", told(later ? "Then, in this order" : "Today and this week, in this order", language));
    out += tagged(
        "p", told("Begin at the top. Leave a job when the ground, the straw or the sky is against it, and "
                  "take the next.",
                  language));
    out += order_table(plan, list.order, language);
  }
  const auto burns = [&](const Listed& l) {
    const auto op = plan.operations.find(l.operation);
    return op != plan.operations.end() && op->second.burning;
  };
  const bool any_burn = std::ranges::any_of(list.today, burns) || std::ranges::any_of(list.week, burns) ||
                        std::ranges::any_of(list.order, burns);
  if (any_burn && plan.authority)
    out += tagged("p", fmt::format("{} {} {}.", capital(told("ask", language)), *plan.authority,
                                   told("before each burn; it decides on the day", language)));
  out += cautions_html(plan, list, language);
  return out +
         tagged(
             "p",
             told("Local authority, fire service and licensed practice come before anything on this sheet.",
                  language)) +
         "</section>\n";
}

}  // namespace

std::string work_lists_html(const Plan& plan, const ExportOptions& options) {
  const Language language = options.language;
  std::string body;
  for (const std::string& id : plan.operator_ids)
    body += person_html(plan, list_for(plan, id, language), language);
  const PersonsList nobody = list_for(plan, std::nullopt, language);
  if (!nobody.empty()) body += person_html(plan, nobody, language);
  return html_of({.title = plan.farm + ": " + told("Work list", language),
                  .paper = options.paper,
                  .landscape = false,
                  .language = language,
                  .style = list_style,
                  .body = body});
}

}  // namespace aftercut::report::sheets

#include "aftercut/report/exports.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "exports_parts.hpp"
#include "sheet_words.hpp"

namespace aftercut::report {
namespace {

struct Kind {
  const char* name;
  const char* media_type;
  std::string (*make)(const sheets::Plan&, const ExportOptions&);  ///< null: the work book, which can fail
};

const std::array<Kind, 7> kinds{{
    {"work.xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", nullptr},
    {"calendar.ics", "text/calendar",
     [](const sheets::Plan& p, const ExportOptions&) { return sheets::calendar_ics(p); }},
    {"truck-sheet.html", "text/html", sheets::truck_sheet_html},
    {"truck-sheet.txt", "text/plain",
     [](const sheets::Plan& p, const ExportOptions&) { return sheets::truck_sheet_text(p); }},
    {"work-lists.html", "text/html", sheets::work_lists_html},
    {"combine-card.html", "text/html", sheets::combine_card_html},
    {"field-sheets.html", "text/html", sheets::field_sheets_html},
}};

}  // namespace

namespace sheets {

Result<Exported> exported(const Plan& plan, const std::string& name, const ExportOptions& options) {
  const auto* kind = std::ranges::find_if(kinds, [&](const Kind& k) { return name == k.name; });
  if (kind == kinds.end())
    return Issues{{"command line", "name of an export", name, "one of " + list_of(export_names()),
                   "choose one of these"}};
  if (kind->make != nullptr) return Exported{kind->name, kind->media_type, kind->make(plan, options)};
  auto book = work_book(plan);
  if (!book.ok()) return book.issues();
  return Exported{kind->name, kind->media_type, std::move(book).value()};
}

}  // namespace sheets

std::vector<std::string> export_names() {
  std::vector<std::string> names;
  for (const Kind& k : kinds) names.emplace_back(k.name);
  return names;
}

Result<Exported> export_of(const std::string& plan_json, const std::string& name,
                           const ExportOptions& options) {
  const auto plan = sheets::read_plan_text(plan_json);
  if (!plan.ok()) return plan.issues();
  return sheets::exported(plan.value(), name, options);
}

}  // namespace aftercut::report

#pragma once
// The exports one by one, from a plan that was read. Internal to the room.

#include "aftercut/report/exports.hpp"
#include "plan_text.hpp"

namespace aftercut::report::sheets {

std::string truck_sheet_html(const Plan& plan, const ExportOptions& options);
/// Lines of at most 60 characters, for a message.
std::string truck_sheet_text(const Plan& plan);
std::string work_lists_html(const Plan& plan, const ExportOptions& options);
std::string combine_card_html(const Plan& plan, const ExportOptions& options);
std::string field_sheets_html(const Plan& plan, const ExportOptions& options);
std::string calendar_ics(const Plan& plan);
/// With the vanished events of an older one cancelled.
Result<Exported> calendar_in_place_of(const Plan& plan, const std::string& older_ics);
/// Issues: a text too long for a cell.
Result<std::string> work_book(const Plan& plan);

Result<Exported> exported(const Plan& plan, const std::string& name, const ExportOptions& options);

}  // namespace aftercut::report::sheets

#pragma once
// What `aftercut burn` shows: the standing of each field on a day, on the terminal, as JSON, and as a sheet
// to print for the talk with the authority. Decides nothing; grants nothing.

#include <string>
#include <vector>

#include "aftercut/season/burn_standing.hpp"

namespace aftercut::report {

std::string burn_text(const farm::Farm& farm, const std::vector<season::BurnStanding>& fields);
/// Keys end in their units.
std::string burn_json(const farm::Farm& farm, const std::vector<season::BurnStanding>& fields);
/// One field's sheet: plain, without scripts, for paper of A4 or letter size.
std::string burn_sheet_html(const farm::Farm& farm, const season::BurnStanding& standing);
/// "burn-C4.html": letters, digits, dots and dashes of the id; others become a dash.
std::string burn_sheet_name(const FieldId& id);

}  // namespace aftercut::report

#pragma once
// The plan's calendar (RFC 5545): dates to keep, jobs, start-by days, as all-day events.

#include <string>

#include "aftercut/report/exports.hpp"

namespace aftercut::report {

/// calendar.ics that takes the place of an older one: its events that are no longer there are cancelled.
/// Issues: a broken plan.json; an older calendar that is none, is of another farm or of a later day.
Result<Exported> calendar_replacing(const std::string& plan_json, const std::string& older_ics);

}  // namespace aftercut::report

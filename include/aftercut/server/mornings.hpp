#pragma once
// What a morning in the season asks of the server beside a plan: the days ahead, and a plan made again that
// is to stand from now on.

#include "aftercut/server/work.hpp"

namespace aftercut::server {

/// The days ahead of the farm's morning under the plan in the out folder; the look is kept in the farm
/// folder.
/// {"ahead": as report::watch_json has it, "looks": [...]}.
Result<std::string> days_ahead(const Setup& setup, const farm::Problem& problem, const Tell& tell);
/// {"ahead": null, "looks": [...]}: those kept in the farm folder, rising by day.
Result<std::string> looks_kept(const Setup& setup);

/// A plan of another day or version in the out folder is kept in OUT/stood before one is made there. Issues:
/// the disk refuses.
Issues keep_what_stood(const Setup& setup, Date day);

/// A plan of OUT/again takes the place of the one that stands, which is kept in OUT/stood/DAY (or DAY-2,
/// ...). Issues: its folder holds another plan by now; the disk refuses.
Issues let_stand(const Setup& setup, const Kept& stands, const Kept& again);

}  // namespace aftercut::server

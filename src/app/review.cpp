#include <fmt/format.h>

#include <algorithm>

#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/audit/made.hpp"
#include "aftercut/report/season_review.hpp"
#include "aftercut/review/season_review.hpp"
#include "looking_back.hpp"

namespace aftercut::app {

Result<LookedBack> look_back(const Options& o) {
  Options then = o;
  if (const auto day = audit::plan_made_in(plan_file(o)).as_of) then.as_of = iso(*day);
  const auto expected = read_input(then), now = read_input(o);
  Issues issues = expected.issues();
  for (const Issue& i : now.issues())
    if (std::ranges::count(issues, i) == 0) issues.push_back(i);
  if (!issues.empty()) return issues;
  const auto planned = audit::read_plan(plan_file(o), expected.value().problem);
  if (!planned.ok()) return planned.issues();
  const LateWord word{"Looking back ..."};
  return LookedBack{now.value().problem, review::season_review({.expected = &expected.value().problem,
                                                                .planned = &planned.value(),
                                                                .now = &now.value().problem,
                                                                .seed = o.seed,
                                                                .threads = threads_of(o)})};
}

int review_season(const Options& o) {
  const auto back = look_back(o);
  if (!back.ok()) return report_issues(back.issues(), o.json);
  const LookedBack& found = back.value();
  fmt::print("{}", o.json ? report::season_review_json(found.now, found.review)
                          : report::season_review_text(found.now, found.review));
  return done;
}

}  // namespace aftercut::app

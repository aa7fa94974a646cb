#include <fmt/format.h>

#include <algorithm>

#include "aftercut/app/commands.hpp"
#include "aftercut/app/input.hpp"
#include "aftercut/app/terminal.hpp"
#include "aftercut/audit/audit.hpp"
#include "aftercut/report/season_review.hpp"
#include "aftercut/review/season_review.hpp"

namespace aftercut::app {

int review_season(const Options& o) {
  Options then = o;
  if (const auto day = plan_as_of(plan_file(o))) then.as_of = iso(*day);
  const auto expected = read_input(then), now = read_input(o);
  Issues issues = expected.issues();
  for (const Issue& i : now.issues())
    if (std::ranges::count(issues, i) == 0) issues.push_back(i);
  if (!issues.empty()) return report_issues(issues, o.json);
  const auto planned = audit::read_plan(plan_file(o), expected.value().problem);
  if (!planned.ok()) return report_issues(planned.issues(), o.json);
  const LateWord word{"Looking back ..."};
  const plan::SeasonReview found = review::season_review({.expected = &expected.value().problem,
                                                          .planned = &planned.value(),
                                                          .now = &now.value().problem,
                                                          .seed = o.seed,
                                                          .threads = threads_of(o)});
  fmt::print("{}", o.json ? report::season_review_json(now.value().problem, found)
                          : report::season_review_text(now.value().problem, found));
  return done;
}

}  // namespace aftercut::app

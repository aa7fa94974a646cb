#include "aftercut/farm/next_season.hpp"

#include <fmt/format.h>

#include "aftercut/app/terminal.hpp"
#include "looking_back.hpp"

namespace aftercut::app {
namespace {

std::vector<farm::FieldGone> gone(const LookedBack& back) {
  std::vector<farm::FieldGone> out;
  const farm::Farm& farm = back.now.farm;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const plan::FieldReview& r = back.review.fields[f];
    out.push_back({farm.fields[f].id,
                   {.year = year_of(farm.season.first),
                    .method = r.method,
                    .burned = r.burned,
                    .grain = farm.fields[f].cut ? farm.fields[f].grain : std::nullopt,
                    .ready = r.ready}});
  }
  return out;
}

}  // namespace

int make_next_season(const Options& o) {
  const auto back = look_back(o);
  if (!back.ok()) return report_issues(back.issues(), false);
  const auto made = farm::next_season({.from = o.farm, .to = o.out, .fields = gone(back.value())});
  if (!made.ok()) return report_issues(made.issues(), false);
  fmt::print("Made {}:\n", made.value().folder.string());
  for (const auto& file : made.value().files) fmt::print("  {}\n", file.string());
  fmt::print("To look at before it is planned:\n");
  fmt::print("  harvest days, planting dates and cut-offs: this season's, a year on\n");
  fmt::print("  yields, lay and prices: as they were; `aftercut review` proposes speeds\n");
  for (const auto& note : made.value().notes) fmt::print("  {}\n", note);
  fmt::print("Next: aftercut check {}\n", made.value().folder.string());
  return done;
}

}  // namespace aftercut::app

#include "aftercut/review/season_review.hpp"

#include <algorithm>

#include "aftercut/core/parallel.hpp"
#include "aftercut/core/require.hpp"
#include "aftercut/dispatch/dispatch.hpp"
#include "aftercut/dispatch/progress.hpp"
#include "work_sums.hpp"

namespace aftercut::review {
namespace {

/// Days of [from, until) on which no field that is cut could be worked.
double wet_days(const plan::YearRun& run, const farm::Farm& farm, int from, int until) {
  double days = 0.0;
  for (int d = from; d < until; ++d) {
    bool any = false, all_stand = true;
    for (std::size_t f = 0; f < farm.fields.size(); ++f) {
      if (farm.season.day(farm.fields[f].harvest) >= d) continue;
      all_stand = false;
      any = any || run.workable[f][static_cast<std::size_t>(d)] != 0;
    }
    days += any || all_stand ? 0.0 : 1.0;
  }
  return days;
}

double mean_wet_days(const farm::Problem& p, const plan::Decision& decision, const ReviewInput& in, int until,
                     std::size_t years) {
  const dispatch::Table t = dispatch::make_table(p, in.seed);
  std::vector<double> wet(std::min(years, t.drivers.size()));
  const int from = in.expected->farm.season.day(in.expected->as_of);
  for_each_index(wet.size(), in.threads, [&](std::size_t y) {
    wet[y] = wet_days(dispatch::run(t, decision, y, {.keep_workable = true}), p.farm, from, until);
  });
  double sum = 0.0;
  for (const double w : wet) sum += w;
  return sum / static_cast<double>(wet.size());
}

/// The farm as it is known now, on the plan's first day, nothing done yet.
farm::Problem without_work(const ReviewInput& in) {
  farm::Problem p = *in.now;
  p.so_far = {};
  p.as_of = in.expected->as_of;
  return p;
}

/// The method whose steps the field's work shares most, the planned one before others; none: no work.
int method_done(const dispatch::Table& t, std::size_t f, int planned) {
  if (!t.so_far) return plan::none;
  std::vector<int> known;
  for (const journal::Stage& s : t.so_far->fields[f].done) known.push_back(s.operation);
  if (t.so_far->fields[f].running) known.push_back(t.so_far->fields[f].running->operation);
  if (known.empty()) return plan::none;
  const auto shared = [&](int r) {
    int n = 0;
    for (const method::Step& s : t.problem->farm.book.recipes[static_cast<std::size_t>(r)].steps)
      n += std::ranges::count(known, s.operation) > 0 ? 2 : -1;
    return n;
  };
  int best = planned;
  for (int r = 0; r < static_cast<int>(t.problem->farm.book.recipes.size()); ++r)
    if (best == plan::none || shared(r) > shared(best)) best = r;
  return best;
}

plan::FieldReview field_review(const ReviewInput& in, const dispatch::Table& t, std::size_t f) {
  const farm::Farm& farm = in.now->farm;
  const auto id = [&](int r) {
    return r == plan::none ? std::string{} : farm.book.recipes[static_cast<std::size_t>(r)].id.value;
  };
  const int planned = in.planned->plan.decision.method[f], done = method_done(t, f, planned);
  plan::FieldReview out{.field = farm.fields[f].id.value, .planned_method = id(planned), .method = id(done)};
  if (planned != plan::none) {
    const auto& o = in.planned->plan.fields[f].methods[static_cast<std::size_t>(planned)];
    out.chance_first = o.chance_ready;
    out.planned_straw_left_kg_per_ha = o.straw_left_kg_per_ha.p50;
  }
  if (!t.so_far) return out;
  const journal::FieldState& s = t.so_far->fields[f];
  out.straw_left_kg_per_ha = s.now.life.pools.total();
  out.burned = s.now.life.straw.burned > 0.0;
  const bool due = farm.fields[f].next.kind != farm::NextUseKind::fallow;
  if (due && done != plan::none && dispatch::finished(dispatch::begin_on(t, f, done)))
    out.ready = farm.season.date(s.last_end);
  return out;
}

std::vector<plan::YieldReview> yields_of(const ReviewInput& in) {
  std::vector<plan::YieldReview> out;
  for (std::size_t f = 0; f < in.now->farm.fields.size(); ++f) {
    const auto &was = in.expected->farm.fields[f].grain, &is = in.now->farm.fields[f].grain;
    if (was && is && *was != *is) out.push_back({in.now->farm.fields[f].id.value, was->value(), is->value()});
  }
  return out;
}

}  // namespace

plan::SeasonReview season_review(const ReviewInput& in) {
  require(in.expected->farm.fields.size() == in.now->farm.fields.size(), "a season keeps its fields");
  const dispatch::Table t = dispatch::make_table(*in.now, in.seed);
  const int until = in.now->farm.season.day(in.now->as_of);
  plan::SeasonReview out{.from = in.expected->as_of, .until = in.now->as_of};
  out.days = out.until - out.from;
  const std::vector<DoneWork> done = done_works(t);
  out.work = work_reviews(t, done, in.planned->runs, until);
  out.rates = rate_reviews(t, done);
  out.yields = yields_of(in);
  for (std::size_t f = 0; f < in.now->farm.fields.size(); ++f) out.fields.push_back(field_review(in, t, f));
  const plan::Decision& d = in.planned->plan.decision;
  out.planned_wet_days = mean_wet_days(*in.expected, d, in, until, in.expected->years.years.size());
  out.wet_days = mean_wet_days(without_work(in), d, in, until, 1);
  return out;
}

}  // namespace aftercut::review

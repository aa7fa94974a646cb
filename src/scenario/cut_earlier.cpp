// The same two methods with one field cut earlier.

#include <algorithm>

#include "aftercut/core/numbers.hpp"
#include "aftercut/core/parallel.hpp"
#include "aftercut/scenario/next_best.hpp"

namespace aftercut::scenario {
namespace {

constexpr int most_days = 7;

int days_earlier(const farm::Problem& problem, const farm::Field& field) {
  return field.cut ? 0 : std::clamp(field.harvest - problem.as_of, 0, most_days);
}

/// Cut by so many days earlier; drained earlier too, as far as that day is still to come.
farm::Field cut_earlier(farm::Field field, const Date& as_of, int days) {
  field.harvest = field.harvest + -days;
  if (field.summer_drain > as_of)
    field.summer_drain = std::max(field.summer_drain + -days, std::min(field.summer_drain, as_of));
  return field;
}

/// The plan's table with one field's harvest moved: `all` is the table of a farm on which every standing
/// field is cut earlier.
class OneMoved {
 public:
  OneMoved(const OutcomeInput& in, const farm::Problem& problem, const dispatch::Table& all)
      : problem_{problem}, table_{*in.table}, base_{in.table}, all_{&all} {
    table_.problem = &problem_;
  }
  const dispatch::Table& with(std::size_t field) {
    take(field, *all_);
    return table_;
  }
  void put_back(std::size_t field) { take(field, *base_); }

 private:
  void take(std::size_t field, const dispatch::Table& from) {
    problem_.farm.fields[field] = from.problem->farm.fields[field];
    table_.mornings[field] = from.mornings[field];
    table_.starts[field] = from.starts[field];
    table_.why_not[field] = from.why_not[field];
    table_.setting_of[field] = from.setting_of[field];
  }
  farm::Problem problem_;
  dispatch::Table table_;
  const dispatch::Table* base_;
  const dispatch::Table* all_;
};

std::int64_t saving(const OutcomeInput& in, const dispatch::Table& table, std::size_t field, int next) {
  const std::size_t years = table.drivers.size();
  plan::Decision other = *in.decision;
  other.method[field] = next;
  std::vector<std::int64_t> saves(2 * years, 0);
  for_each_index(2 * years, in.threads, [&](std::size_t k) {
    const bool switched = k % 2 == 1;
    const auto cost = dispatch::cost_of(dispatch::run(table, switched ? other : *in.decision, k / 2));
    saves[k] = switched ? cost : -cost;
  });
  std::int64_t sum = 0;
  for (const std::int64_t s : saves) sum += s;
  return to_cents(static_cast<double>(sum) / static_cast<double>(years) / 100.0);
}

}  // namespace

std::vector<CutEarlier> saves_if_cut_earlier(const OutcomeInput& in, const std::vector<int>& next) {
  const farm::Problem& problem = *in.table->problem;
  std::vector<CutEarlier> out(next.size());
  farm::Problem earlier = problem;
  bool any = false;
  for (std::size_t f = 0; f < next.size(); ++f) {
    out[f].days = days_earlier(problem, problem.farm.fields[f]);
    if (out[f].days == 0 || next[f] == plan::none) continue;
    any = true;
    earlier.farm.fields[f] = cut_earlier(problem.farm.fields[f], problem.as_of, out[f].days);
  }
  if (!any) return out;
  const dispatch::Table all = dispatch::make_table(earlier, in.table->seed);
  OneMoved moved{in, problem, all};
  for (std::size_t f = 0; f < next.size(); ++f) {
    if (out[f].days == 0 || next[f] == plan::none) continue;
    const auto open = [&](int m) { return all.why_not[f][static_cast<std::size_t>(m)].empty(); };
    if (!open(next[f]) || !open(in.decision->method[f])) continue;
    out[f].saves = saving(in, moved.with(f), f, next[f]);
    moved.put_back(f);
  }
  return out;
}

}  // namespace aftercut::scenario

#include "project.hpp"

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <optional>

#include "aftercut/planner/anneal.hpp"

namespace aftercut::test {
namespace {

/// Resource use of a schedule in the making, by time.
class Timeline {
 public:
  explicit Timeline(const Project& p) : p_{p}, kinds_{p.renewable.size()} {}

  int earliest(const Mode& m, int from) const {
    for (int start = from, t = from; t < start + m.duration; ++t)
      if (!free(m, t)) start = t + 1, from = start;
    return from;
  }
  void take(const Mode& m, int start) {
    const auto until = static_cast<std::size_t>(start + m.duration) * kinds_;
    if (used_.size() < until) used_.resize(until, 0);
    for (int t = start; t < start + m.duration; ++t)
      for (std::size_t r = 0; r < kinds_; ++r)
        used_[static_cast<std::size_t>(t) * kinds_ + r] += m.renewable[r];
  }

 private:
  bool free(const Mode& m, int t) const {
    const std::size_t at = static_cast<std::size_t>(t) * kinds_;
    if (at >= used_.size()) return true;
    for (std::size_t r = 0; r < kinds_; ++r)
      if (used_[at + r] + m.renewable[r] > p_.renewable[r]) return false;
    return true;
  }
  const Project& p_;
  std::size_t kinds_;
  std::vector<int> used_;
};

const Mode& mode_of(const Project& p, const JobList& list, int job) {
  const auto j = static_cast<std::size_t>(job);
  return p.jobs[j].modes[static_cast<std::size_t>(list.mode[j])];
}

int excess_of(const Project& p, const JobList& list) {
  int excess = 0;
  for (std::size_t r = 0; r < p.nonrenewable.size(); ++r) {
    int used = 0;
    for (std::size_t j = 0; j < p.jobs.size(); ++j)
      used += mode_of(p, list, static_cast<int>(j)).nonrenewable[r];
    excess += std::max(0, used - p.nonrenewable[r]);
  }
  return excess;
}

/// The schedule built from its other end: jobs as late as they can be, those that end last first. Its starts
/// order a list whose own schedule is never longer. Source: DoubleJustification (recalled).
JobList justified(const Project& p, const JobList& list, const Built& built) {
  Project back = p;
  for (Job& j : back.jobs) std::swap(j.before, j.after);
  const auto end_of = [&](int j) {
    return built.start[static_cast<std::size_t>(j)] + mode_of(p, list, j).duration;
  };
  JobList reversed = list;
  std::ranges::reverse(reversed.order);
  std::ranges::stable_sort(reversed.order, [&](int a, int b) { return end_of(a) > end_of(b); });
  const Built late = build(back, reversed);
  const auto start_of = [&](int j) {
    return late.makespan - late.start[static_cast<std::size_t>(j)] - mode_of(p, list, j).duration;
  };
  JobList out = list;
  std::ranges::stable_sort(out.order, [&](int a, int b) { return start_of(a) < start_of(b); });
  return out;
}

}  // namespace

JobList first_list(const Project& p) {
  JobList list;
  list.mode.assign(p.jobs.size(), 0);
  std::vector<std::size_t> waits;
  for (const Job& j : p.jobs) waits.push_back(j.before.size());
  for (std::size_t k = 0; k < p.jobs.size(); ++k)
    for (std::size_t j = 0; j < p.jobs.size(); ++j) {
      if (waits[j] != 0 || std::ranges::count(list.order, static_cast<int>(j)) > 0) continue;
      list.order.push_back(static_cast<int>(j));
      for (const int next : p.jobs[j].after) --waits[static_cast<std::size_t>(next)];
    }
  return list;
}

Built build(const Project& p, const JobList& list) {
  Built out{std::vector<int>(p.jobs.size(), 0), 0, excess_of(p, list)};
  Timeline line{p};
  for (const int job : list.order) {
    const auto j = static_cast<std::size_t>(job);
    int from = 0;
    for (const int b : p.jobs[j].before)
      from = std::max(from, out.start[static_cast<std::size_t>(b)] + mode_of(p, list, b).duration);
    const Mode& m = mode_of(p, list, job);
    out.start[j] = line.earliest(m, from);
    line.take(m, out.start[j]);
    out.makespan = std::max(out.makespan, out.start[j] + m.duration);
  }
  return out;
}

std::string broken(const Project& p, const JobList& list, const Built& built) {
  for (std::size_t j = 0; j < p.jobs.size(); ++j)
    for (const int b : p.jobs[j].before)
      if (built.start[j] < built.start[static_cast<std::size_t>(b)] + mode_of(p, list, b).duration)
        return "a job starts before one that it waits for has ended";
  for (int t = 0; t < built.makespan; ++t)
    for (std::size_t r = 0; r < p.renewable.size(); ++r) {
      int used = 0;
      for (std::size_t j = 0; j < p.jobs.size(); ++j) {
        const Mode& m = mode_of(p, list, static_cast<int>(j));
        if (built.start[j] <= t && t < built.start[j] + m.duration) used += m.renewable[r];
      }
      if (used > p.renewable[r]) return "a resource is used beyond what is there";
    }
  return excess_of(p, list) == built.excess ? "" : "the excess is told wrong";
}

namespace {

class ProjectWalk {
 public:
  ProjectWalk(const Project& p, long schedules, std::uint64_t seed)
      : p_{p}, budget_{schedules}, draws_{seed, stream_of("project")} {
    for (std::size_t j = 0; j < p.jobs.size(); ++j)
      if (p.jobs[j].modes.size() > 1) choices_.push_back(static_cast<int>(j));
  }

  Tried run() {
    const long share = budget_ / restarts;
    for (int k = 0; k < restarts; ++k) walk(share, static_cast<std::uint64_t>(k));
    return best_;
  }

 private:
  static constexpr int restarts = 4;
  static constexpr double first_heat = 4.0;     // in time units
  static constexpr double excess_weight = 2.0;  // time units for a unit that is not there

  void walk(long schedules, std::uint64_t index) {
    now_ = first_list(p_);
    for (const int j : choices_)
      now_.mode[static_cast<std::size_t>(j)] = static_cast<int>(
          draws_.below(static_cast<std::uint32_t>(p_.jobs[static_cast<std::size_t>(j)].modes.size())));
    long left = schedules;
    const double start = judge(now_, left);
    planner::anneal({.moves = static_cast<int>(schedules / (choices_.empty() ? 3 : 1)),
                     .start_cost = start,
                     .heat = first_heat,
                     .judge = [&](Draws& d, double) -> std::optional<double> {
                       next_ = now_;
                       change(d);
                       if (left <= 0) return std::nullopt;
                       return judge(next_, left);
                     },
                     .keep = [this] { now_ = next_; },
                     .best = [] {}},
                    Draws{index, stream_of("project walk"), draws_.below(1U << 30U)});
  }

  /// The cost of the list, made no worse by justification where modes are fixed; notes the best.
  double judge(JobList& list, long& left) {
    Built built = build(p_, list);
    --left;
    note(list, built);
    if (choices_.empty()) {
      list = justified(p_, list, built);
      built = build(p_, list);
      left -= 2;
      note(list, built);
    }
    return built.makespan + excess_weight * built.excess;
  }

  void note(const JobList& list, const Built& built) {
    ++best_.schedules;
    if (built.excess > 0 || (best_.makespan > 0 && built.makespan >= best_.makespan)) return;
    best_.makespan = built.makespan;
    best_.list = list;
  }

  void change(Draws& d) {
    if (!choices_.empty() && d.below(2) == 0) {
      // Two at once as often as one: a swap of what is used keeps what is there.
      for (auto k = d.below(2) + 1; k > 0; --k) {
        const auto j =
            static_cast<std::size_t>(choices_[d.below(static_cast<std::uint32_t>(choices_.size()))]);
        next_.mode[j] = static_cast<int>(d.below(static_cast<std::uint32_t>(p_.jobs[j].modes.size())));
      }
      return;
    }
    auto& order = next_.order;
    const auto n = static_cast<std::uint32_t>(order.size());
    const auto from = d.below(n);
    const int job = order[from];
    const Job& of = p_.jobs[static_cast<std::size_t>(job)];
    std::uint32_t low = 0, high = n - 1;
    for (std::uint32_t k = 0; k < n; ++k) {
      if (std::ranges::count(of.before, order[k]) > 0) low = k + 1;
      if (std::ranges::count(of.after, order[k]) > 0) high = std::min(high, k - 1);
    }
    if (low >= high) return;
    const auto to = low + d.below(high - low + 1);
    order.erase(order.begin() + from);
    order.insert(order.begin() + to, job);
  }

  const Project& p_;
  long budget_;
  Draws draws_;
  std::vector<int> choices_;
  JobList now_, next_;
  Tried best_;
};

}  // namespace

Tried search_project(const Project& p, long schedules, std::uint64_t seed) {
  return ProjectWalk{p, schedules, seed}.run();
}

}  // namespace aftercut::test

#include "project.hpp"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <numeric>
#include <optional>
#include <sstream>

#include "aftercut/core/require.hpp"
#include "aftercut/planner/anneal.hpp"

namespace aftercut::test {
namespace {

std::vector<int> numbers_in(const std::string& line) {
  std::vector<int> out;
  std::istringstream words{line};
  for (int x = 0; words >> x;) out.push_back(x);
  return out;
}

bool fits(const Project& p, const Mode& m) {
  for (std::size_t r = 0; r < p.renewable.size(); ++r)
    if (m.renewable[r] > p.renewable[r]) return false;
  return true;
}

/// Lines of a file up to and behind its headings.
class Sections {
 public:
  explicit Sections(const std::filesystem::path& file) {
    std::ifstream in{file};
    for (std::string line; std::getline(in, line);) lines_.push_back(line);
    require(!lines_.empty(), "an instance file has lines");
  }
  /// The line after the first that holds the text.
  std::size_t behind(const std::string& text) const {
    const auto at =
        std::ranges::find_if(lines_, [&](const auto& l) { return l.find(text) != std::string::npos; });
    require(at != lines_.end(), "an instance file has its headings");
    return static_cast<std::size_t>(at - lines_.begin()) + 1;
  }
  const std::string& line(std::size_t i) const { return lines_[i]; }

 private:
  std::vector<std::string> lines_;
};

int count_in(const Sections& s, const std::string& heading) {
  const std::string& line = s.line(s.behind(heading) - 1);
  return numbers_in(line.substr(line.find(':') + 1)).front();
}

void read_jobs(Project& p, const Sections& s) {
  const std::size_t first = s.behind("jobnr.    #modes");
  for (std::size_t j = 0; j < p.jobs.size(); ++j) {
    const std::vector<int> row = numbers_in(s.line(first + j));
    for (std::size_t k = 3; k < row.size(); ++k) {
      const int next = row[k] - 1;
      p.jobs[j].after.push_back(next);
      p.jobs[static_cast<std::size_t>(next)].before.push_back(static_cast<int>(j));
    }
  }
  std::size_t at = s.behind("jobnr. mode duration") + 1;
  const std::size_t columns = p.renewable.size() + p.nonrenewable.size();
  for (std::size_t j = 0; j < p.jobs.size();) {
    const std::vector<int> row = numbers_in(s.line(at));
    if (row.size() == columns + 3 && row.front() != static_cast<int>(j) + 1) {
      ++j;
      continue;
    }
    if (row.empty()) break;
    const std::ptrdiff_t skip = row.size() == columns + 3 ? 3 : 2;
    Mode m{.duration = row[static_cast<std::size_t>(skip) - 1], .renewable = {}, .nonrenewable = {}};
    m.renewable.assign(row.begin() + skip,
                       row.begin() + skip + static_cast<std::ptrdiff_t>(p.renewable.size()));
    m.nonrenewable.assign(row.begin() + skip + static_cast<std::ptrdiff_t>(p.renewable.size()), row.end());
    if (fits(p, m)) p.jobs[j].modes.push_back(m);
    ++at;
  }
}

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

Project read_project(const std::filesystem::path& file) {
  const Sections s{file};
  Project p;
  p.jobs.resize(static_cast<std::size_t>(count_in(s, "jobs (incl.")));
  p.horizon = count_in(s, "horizon");
  const auto renewable = static_cast<std::size_t>(count_in(s, "- renewable"));
  const std::vector<int> there = numbers_in(s.line(s.behind("RESOURCEAVAILABILITIES") + 1));
  p.renewable.assign(there.begin(), there.begin() + static_cast<std::ptrdiff_t>(renewable));
  p.nonrenewable.assign(there.begin() + static_cast<std::ptrdiff_t>(renewable), there.end());
  read_jobs(p, s);
  return p;
}

std::map<std::pair<int, int>, int> read_optima(const std::filesystem::path& file) {
  constexpr int infeasible = 16384;
  std::map<std::pair<int, int>, int> out;
  std::ifstream in{file};
  for (std::string line; std::getline(in, line);) {
    std::ranges::replace(line, ',', ' ');
    const std::vector<int> row = numbers_in(line);
    if (row.size() >= 3 && row[2] != infeasible) out[{row[0], row[1]}] = row[2];
  }
  return out;
}

std::pair<int, int> set_and_instance(const std::string& name) {
  const std::size_t bar = name.find('_');
  return {std::stoi(name.substr(3, bar - 3)), std::stoi(name.substr(bar + 1))};
}

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

#include "aftercut/journal/write_down.hpp"

#include <algorithm>
#include <set>

#include "aftercut/core/folder_lock.hpp"
#include "aftercut/journal/form.hpp"
#include "aftercut/journal/settle.hpp"
#include "write_log.hpp"

namespace aftercut::journal {
namespace {

/// Those that are not there yet, under the numbers that they would get.
std::vector<Entry> fresh_of(const Log& log, const std::vector<Entry>& entries) {
  std::vector<Entry> fresh;
  const auto there = [](const std::vector<Entry>& list, const std::string& id) {
    return std::ranges::find(list, id, &Entry::id) != list.end();
  };
  for (const Entry& e : entries) {
    if (there(log.entries, e.id) || there(fresh, e.id)) continue;
    fresh.push_back(e);
    fresh.back().seq = static_cast<int>(log.entries.size() + fresh.size());
  }
  return fresh;
}

/// The number under which each fresh entry holds: its own, or the one at the root of its corrections.
std::set<int> numbers_held(const std::vector<Entry>& all, const std::vector<Entry>& fresh) {
  std::set<int> numbers;
  for (const Entry& e : fresh) {
    int root = e.seq;
    for (auto to = e.corrects; to && 0 < *to && *to < root;
         to = all[static_cast<std::size_t>(root) - 1].corrects)
      root = *to;
    numbers.insert(root);
  }
  return numbers;
}

}  // namespace

Issues faults_of(const Log& log, const std::vector<Entry>& entries, const AtDesk& at) {
  const std::vector<Entry> fresh = fresh_of(log, entries);
  Issues issues;
  for (const Entry& e : fresh) {
    for (const Issues& found : {faults_on(at.problem->farm, e, at.today), format_faults(e)})
      issues.insert(issues.end(), found.begin(), found.end());
  }
  if (fresh.empty() || !issues.empty()) return issues;
  farm::Problem problem = *at.problem;
  problem.as_of = at.today + 1;  // from then on the work of today counts
  std::vector<Entry> all = log.entries;
  all.insert(all.end(), fresh.begin(), fresh.end());
  const auto before = faults_in(problem, standing_on(log.entries, problem.as_of), file_name);
  const auto after = faults_in(problem, standing_on(all, problem.as_of), file_name);
  const std::set<int> own = numbers_held(all, fresh);
  for (const EntryFault& f : after)
    if (own.contains(f.seq) || std::ranges::find(before, f) == before.end()) issues.push_back(f.issue);
  return issues;
}

Result<std::vector<Entry>> write_down(const std::filesystem::path& folder, const std::vector<Entry>& entries,
                                      const AtDesk& at) {
  const auto lock = FolderLock::take(folder, patience_ms);
  if (!lock.ok()) return lock.issues();
  const auto log = read_log(folder);
  if (!log.ok()) return log.issues();
  Issues issues = faults_of(log.value(), entries, at);
  if (!issues.empty()) return issues;
  return append_alone(real_disk(), folder, entries);
}

}  // namespace aftercut::journal

#include <algorithm>
#include <map>

#include "aftercut/journal/entry.hpp"

namespace aftercut::journal {
namespace {

constexpr std::size_t day_letters = 10;  // of a time like 2026-10-14T18:03:22Z

}  // namespace

std::vector<Entry> standing_on(const std::vector<Entry>& entries, Date day) {
  const std::string by_then = iso(day);
  std::map<int, int> first;            // of each entry's chain of corrections
  std::map<int, const Entry*> latest;  // of each chain, by its first
  for (const Entry& e : entries) {
    const auto before = e.corrects ? first.find(*e.corrects) : first.end();
    const int root = before != first.end() ? before->second : e.corrects.value_or(e.seq);
    first[e.seq] = root;
    if (e.recorded_at.substr(0, day_letters) <= by_then) latest[root] = &e;
  }
  std::vector<Entry> standing;
  for (const auto& [root, e] : latest) {
    if (std::holds_alternative<TakenBack>(e->what)) continue;
    standing.push_back(*e);
    standing.back().seq = root;
  }
  std::ranges::stable_sort(standing, {}, [](const Entry& e) { return std::pair{e.done_on, e.seq}; });
  return standing;
}

}  // namespace aftercut::journal

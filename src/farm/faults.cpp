#include "faults.hpp"

#include <algorithm>

#include "aftercut/core/ids.hpp"

namespace aftercut::farm {
void Faults::add(Issue issue) {
  if (issue.place.empty()) issue.place = "whole file";  // a key can be an empty text
  if (places_.emplace(issue.file, issue.place).second) issues_.push_back(std::move(issue));
}

void Faults::add_all(const Issues& issues) {
  for (const Issue& i : issues) add(i);
}

void Faults::add_all_as(const std::string& file, Issues issues) {
  for (Issue& i : issues) {
    i.file = file;
    // Another room may tell several faults of one place; all of them count.
    places_.emplace(i.file, i.place);
    issues_.push_back(std::move(i));
  }
}

Issues Faults::sorted() const {
  Issues out = issues_;
  std::stable_sort(out.begin(), out.end(), [](const Issue& a, const Issue& b) {
    if (a.file != b.file) return natural_less(a.file, b.file);
    if (a.place != b.place) return natural_less(a.place, b.place);
    return a < b;
  });
  return out;
}

}  // namespace aftercut::farm

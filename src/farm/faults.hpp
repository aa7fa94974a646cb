#pragma once
// Every fault found while a farm folder is read.

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/fault_words.hpp"

namespace aftercut::farm {

/// Gathers issues; the second issue at one place of one file is left out, so that one fault is told once.
/// The one thing that the readers of this room hand around by reference.
class Faults {
 public:
  void add(Issue issue);
  void add_all(const Issues& issues);
  /// Issues of another room's reader, whose file is to be called `file`.
  void add_all_as(const std::string& file, Issues issues);
  [[nodiscard]] bool any() const { return !issues_.empty(); }
  /// By file, then place in natural order.
  [[nodiscard]] Issues sorted() const;

 private:
  Issues issues_;
  std::set<std::pair<std::string, std::string>> places_;
};

}  // namespace aftercut::farm

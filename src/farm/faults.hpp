#pragma once
// Every fault found while a farm folder is read, and words for them.

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "aftercut/core/result.hpp"

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

/// The nearest of `known` to a mistyped word, or an empty text when none is near.
std::string nearest(const std::string& word, const std::vector<std::string>& known);
/// "did you mean `disk`?" or, when none is near, `otherwise`.
std::string did_you_mean(const std::string& word, const std::vector<std::string>& known,
                         const std::string& otherwise);
/// "a, b, c"
std::string listed(const std::vector<std::string>& words);
/// In quotation marks, cut short after 60 bytes.
std::string in_quotes(const std::string& text);

}  // namespace aftercut::farm

#pragma once
// What the targets of the journal share: a small fixed farm in its fourth week, and what must hold of entries
// that were read, alone and put into that farm.

#include "aftercut/journal/entry.hpp"
#include "fuzz.hpp"

namespace aftercut::fuzz {

/// The folder of tests/fuzz/farm with more machines, canal water and the season's weather so far.
class SeasonFolder {
 public:
  explicit SeasonFolder(const std::string& target);
  [[nodiscard]] const FarmFolder& folder() const { return folder_; }
  [[nodiscard]] const farm::Problem& problem() const { return problem_; }

 private:
  FarmFolder folder_;
  farm::Problem problem_;
};

/// Every number is finite and within what any farm has, what is said of each is UTF-8 text in one line, and
/// written and read again they are the same.
void check_entries(const std::vector<journal::Entry>& entries);

/// Those that stand are in order, each once; put into the farm they give issues, or a farm and a state whose
/// numbers are finite; and entry by entry, in any order, one taken back and told again, gives the same state.
void check_season(const farm::Problem& problem, const std::vector<journal::Entry>& entries);

}  // namespace aftercut::fuzz

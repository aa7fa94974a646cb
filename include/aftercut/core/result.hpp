#pragma once
// What a reader gives back: a value, or every issue that it found in the user's data.

#include <compare>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "aftercut/core/require.hpp"

namespace aftercut {

/// One fault in the user's data, said so that the user can mend it.
struct Issue {
  std::string file;      ///< as the user gave it or relative to the farm folder
  std::string place;     ///< feature, field, key path, line or column
  std::string found;     ///< what stands there
  std::string expected;  ///< what should stand there
  std::string fix;       ///< what to do about it
  friend auto operator<=>(const Issue&, const Issue&) = default;
};
using Issues = std::vector<Issue>;

/// The user's text for an issue: cut between two characters, with "..." behind, where it is long.
std::string shortened(const std::string& text);

/// "farm.json: fields[2].yield: found '...'; expected ...; fix: ..." on one line, with no character in it
/// that steers a terminal.
std::string to_text(const Issue& issue);

/// A value, or at least one issue.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : r_{std::in_place_index<0>, std::move(value)} {}        // NOLINT: implicit on purpose
  Result(Issues issues) : r_{std::in_place_index<1>, std::move(issues)} {  // NOLINT
    require(!std::get<1>(r_).empty(), "a failed Result names at least one issue");
  }
  [[nodiscard]] bool ok() const { return r_.index() == 0; }
  explicit operator bool() const { return ok(); }
  [[nodiscard]] const T& value() const& {
    check();
    return std::get<0>(r_);
  }
  [[nodiscard]] T&& value() && {
    check();
    return std::get<0>(std::move(r_));
  }
  /// Empty when there is a value.
  [[nodiscard]] Issues issues() const { return ok() ? Issues{} : std::get<1>(r_); }

 private:
  void check() const { require(ok(), "the value of a failed Result was asked for"); }
  std::variant<T, Issues> r_;
};

}  // namespace aftercut

#pragma once
// A plan made again after changes, as JSON and in words for the page and the terminal.

#include <string>
#include <vector>

#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/replanned.hpp"

namespace aftercut::report {

struct ReplannedShown {
  const farm::Farm* before = nullptr;
  const farm::Farm* after = nullptr;
  const plan::Replanned* replanned = nullptr;
};

/// What the change does, the new plan's cost, fields that change their method, chances that move: a sentence
/// each.
std::vector<std::string> replanned_words(const ReplannedShown& shown);
/// Figures of the three, changes field by field, and the words.
std::string replanned_json(const ReplannedShown& shown);

}  // namespace aftercut::report

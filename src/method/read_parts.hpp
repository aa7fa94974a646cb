#pragma once
// The parts of a book's reader. Private to the room.

#include <string>
#include <vector>

#include "aftercut/method/recipe.hpp"
#include "object_reader.hpp"

namespace aftercut::method {

Operation read_operation(const ObjectReader& at);
/// Steps of a list; an operation that `operations` does not hold is a fault.
std::vector<Step> read_steps(const std::vector<ObjectReader>& list, const std::vector<Operation>& operations,
                             Season usual);
/// `chain` is added to the recipe's own steps unless it brings its own "spring" list.
Recipe read_recipe(const ObjectReader& at, const std::vector<Operation>& operations,
                   const std::vector<Step>& chain);
/// Faults that only the whole book shows: fall-backs, order of seasons, water without boards.
void check_book(const Book& book, IssueLog& log);

}  // namespace aftercut::method

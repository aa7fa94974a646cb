#pragma once
// Kinds of place in words.

#include "aftercut/farm/farm.hpp"

namespace aftercut::farm {

const char* words_of(PlaceKind kind);  ///< "home", "power line", ..., "place" for other

}  // namespace aftercut::farm

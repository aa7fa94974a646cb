#include "aftercut/farm/place_words.hpp"

#include "aftercut/core/require.hpp"

namespace aftercut::farm {

const char* words_of(PlaceKind kind) {
  switch (kind) {
    case PlaceKind::home:
      return "home";
    case PlaceKind::school:
      return "school";
    case PlaceKind::road:
      return "road";
    case PlaceKind::power_line:
      return "power line";
    case PlaceKind::canal:
      return "canal";
    case PlaceKind::trees:
      return "trees";
    case PlaceKind::other:
      return "place";
  }
  fail("unknown kind of place");
}

}  // namespace aftercut::farm

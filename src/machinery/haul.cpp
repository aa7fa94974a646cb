#include "aftercut/machinery/haul.hpp"

#include <algorithm>
#include <tuple>

#include "aftercut/core/require.hpp"

namespace aftercut::machinery {

Hauls share_out(const std::vector<int>& bales, const std::vector<std::optional<int>>& room,
                const std::vector<std::vector<double>>& metres) {
  require(metres.size() == bales.size(), "each field has its ways to the stacks");
  std::vector<Haul> pairs;
  for (std::size_t f = 0; f < bales.size(); ++f) {
    require(metres[f].size() == room.size(), "a field has a way to each stack");
    for (std::size_t s = 0; s < room.size(); ++s) pairs.push_back({f, s, 0, metres[f][s]});
  }
  std::sort(pairs.begin(), pairs.end(), [](const Haul& a, const Haul& b) {
    return std::tie(a.metres, a.field, a.stack) < std::tie(b.metres, b.field, b.stack);
  });
  Hauls out{{}, bales};
  std::vector<std::optional<int>> left = room;
  for (Haul h : pairs) {
    int& waiting = out.without_room[h.field];
    h.bales = left[h.stack] ? std::min(waiting, *left[h.stack]) : waiting;
    if (h.bales <= 0) continue;
    waiting -= h.bales;
    if (left[h.stack]) *left[h.stack] -= h.bales;
    out.hauls.push_back(h);
  }
  std::sort(out.hauls.begin(), out.hauls.end(), [](const Haul& a, const Haul& b) {
    return std::tie(a.stack, a.field) < std::tie(b.stack, b.field);
  });
  return out;
}

}  // namespace aftercut::machinery

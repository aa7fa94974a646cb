// Bales shared out over stacks.
#include "aftercut/machinery/haul.hpp"

#include <algorithm>
#include <numeric>

#include "aftercut/core/random.hpp"
#include "aftercut/core/require.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;
using namespace aftercut::machinery;

TEST_CASE("the shortest way first, the rest of a field to the next stack with room", "[identity]") {
  //            stack 0   stack 1
  // field 0     100 m     500 m     30 bales
  // field 1     200 m     300 m     50 bales
  const Hauls h = share_out({30, 50}, {40, std::nullopt}, {{100.0, 500.0}, {200.0, 300.0}});
  CHECK(h.hauls == std::vector<Haul>{{0, 0, 30, 100.0}, {1, 0, 10, 200.0}, {1, 1, 40, 300.0}});
  CHECK(h.without_room == std::vector<int>{0, 0});
}

TEST_CASE("what fits nowhere is told", "[identity]") {
  const Hauls h = share_out({30, 50}, {20, 25}, {{100.0, 500.0}, {200.0, 300.0}});
  CHECK(h.without_room == std::vector<int>{10, 25});
  CHECK(share_out({7}, {}, {{}}).without_room == std::vector<int>{7});
  CHECK(share_out({}, {3}, {}).hauls.empty());
  CHECK_THROWS_AS(share_out({7}, {3}, {}), InternalError);
  CHECK_THROWS_AS(share_out({7}, {3}, {{1.0, 2.0}}), InternalError);
}

TEST_CASE("no bale is lost, no stack is over its room, and none is left while there is room", "[identity]") {
  Draws draws{3, stream_of("haul-test")};
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<int> bales(1 + draws.below(8));
    std::vector<std::optional<int>> room(draws.below(5));
    std::vector<std::vector<double>> metres;
    for (int& b : bales) b = static_cast<int>(draws.below(400));
    for (auto& r : room)
      if (draws.uniform() < 0.8) r = static_cast<int>(draws.below(500));
    for (std::size_t f = 0; f < bales.size(); ++f) {
      auto& row = metres.emplace_back();
      for (std::size_t s = 0; s < room.size(); ++s) row.push_back(10.0 * draws.below(50));
    }
    const Hauls h = share_out(bales, room, metres);
    std::vector<int> from(bales.size(), 0), into(room.size(), 0);
    for (const Haul& x : h.hauls) from[x.field] += x.bales, into[x.stack] += x.bales;
    bool space = false;
    for (std::size_t s = 0; s < room.size(); ++s) {
      if (room[s]) CHECK(into[s] <= *room[s]);
      space = space || !room[s] || into[s] < *room[s];
    }
    for (std::size_t f = 0; f < bales.size(); ++f) CHECK(from[f] + h.without_room[f] == bales[f]);
    if (space) CHECK(std::accumulate(h.without_room.begin(), h.without_room.end(), 0) == 0);
  }
}

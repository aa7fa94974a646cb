// The state of a morning, from what was done and seen.

#include "aftercut/journal/state.hpp"

#include <cmath>
#include <numbers>

#include "aftercut/core/shuffle.hpp"
#include "aftercut/journal/follow.hpp"
#include "catch2/catch.hpp"
#include "put_right.hpp"
#include "rows.hpp"
#include "small_farm.hpp"

using namespace aftercut;
using namespace aftercut::journal;

namespace {

farm::Problem cut_farm() {
  farm::Problem p = test::small_problem(2);
  for (farm::Field& f : p.farm.fields) f.cut = true;
  p.as_of = make_date(2027, 2, 20);
  return p;
}

int operation(const farm::Problem& p, const std::string& id) {
  const auto& all = p.farm.book.operations;
  const auto at = std::ranges::find_if(all, [&](const auto& o) { return o.id.value == id; });
  REQUIRE(at != all.end());
  return static_cast<int>(at - all.begin());
}

farm::Happened on(int seq, Date day, decltype(farm::Happened::what) what) {
  return {seq, day, std::move(what)};
}

/// Records of every kind, drawn at random over the season.
std::vector<farm::Happened> random_season(const farm::Problem& p, Draws& draws, int count) {
  const std::array<const char*, 8> work{"rake", "bale",      "haul",       "chop",
                                        "disk", "boards_in", "boards_out", "mow"};
  std::vector<farm::Happened> all;
  for (int seq = 1; seq <= count; ++seq) {
    const Date day = make_date(2026, 9, 25) + static_cast<int>(draws.below(140));
    const std::size_t field = draws.below(5);
    switch (draws.below(7)) {
      case 0:  // a gauge stands there before the harvest too
        all.push_back(on(seq, p.farm.season.date(static_cast<int>(draws.below(150))),
                         farm::RainCaught{draws.below(2) == 0 ? std::optional{field} : std::nullopt,
                                          40.0 * draws.uniform(), 0.0}));
        break;
      case 1:
        all.push_back(
            on(seq, day,
               farm::FieldSeen{.field = field, .workable = draws.below(2) == 0, .cover = draws.uniform()}));
        break;
      case 2:
        all.push_back(on(seq, day, farm::WaterTurned{field, draws.below(3) > 0, {}}));
        break;
      case 3:
        all.push_back(on(seq, day, farm::FieldSeen{.field = field, .standing_mm = 60.0 * draws.uniform()}));
        break;
      default:
        all.push_back(on(seq, day,
                         farm::WorkDone{.field = field,
                                        .operation = operation(p, work[draws.below(8)]),
                                        .area_ha = 5.0 * draws.uniform(),
                                        .finishes = draws.below(2) == 0,
                                        .implement = static_cast<int>(draws.below(10))}));
    }
  }
  return all;
}

farm::Problem with(farm::Problem p, std::vector<farm::Happened> events) {
  std::ranges::sort(events, {}, [](const farm::Happened& h) { return std::pair{h.day, h.seq}; });
  p.so_far.events = std::move(events);
  return p;
}

}  // namespace

TEST_CASE("nothing done and nothing seen: no state, and the model alone", "[identity]") {
  const farm::Problem p = cut_farm();
  CHECK_FALSE(state_of(p).has_value());
  Follow follow{p};
  const State s = follow.on(120);
  const season::YearDrivers drivers = season::drivers_of(p.years.years.front(), p.farm);
  for (std::size_t f = 0; f < p.farm.fields.size(); ++f) {
    season::FieldYear alone{p.farm, f, drivers, {}};
    while (alone.day() < 120) alone.end_day(0.0);
    CHECK(alone.pools() == s.fields[f].now.life.pools);
    CHECK(alone.water().seedbed_mm == s.fields[f].now.life.water.seedbed_mm);
  }
}

TEST_CASE("entry by entry gives the state of the whole journal, byte for byte", "[identity]") {
  const farm::Problem p = cut_farm();
  const int as_of = p.farm.season.day(p.as_of);
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    Draws draws{seed, stream_of("journal")};
    const std::vector<farm::Happened> events = random_season(p, draws, 60);
    Follow follow{p};
    std::vector<farm::Happened> so_far;
    for (const farm::Happened& h : events) {
      follow.add(h);
      so_far.push_back(h);
      if (draws.below(3) != 0) continue;
      CHECK(text_of(follow.on(as_of)) == text_of(*state_of(with(p, so_far))));
    }
    CHECK(text_of(follow.on(as_of)) == text_of(*state_of(with(p, events))));
  }
}

TEST_CASE("a correction gives what would have been, had it been right at first", "[identity]") {
  const farm::Problem p = cut_farm();
  const int as_of = p.farm.season.day(p.as_of);
  Draws draws{9, stream_of("journal")};
  std::vector<farm::Happened> events = random_season(p, draws, 50);
  Follow follow{p};
  for (const farm::Happened& h : events) follow.add(h);
  const std::string wrong = text_of(follow.on(as_of));
  const std::vector<farm::Happened> others = random_season(p, draws, 50);
  for (std::size_t k = 0; k < events.size(); k += 7) {
    farm::Happened right = others[k];
    right.seq = events[k].seq;
    events[k] = right;
    follow.add(right);
  }
  follow.take_back(events.back().seq);
  events.pop_back();
  CHECK(text_of(follow.on(as_of)) == text_of(*state_of(with(p, events))));
  CHECK(text_of(follow.on(as_of)) != wrong);
}

TEST_CASE("work that is done takes effect, half a pass when another begins", "[identity]") {
  const farm::Problem p = cut_farm();
  const int disk = operation(p, "disk"), chop = operation(p, "chop");
  const auto state = [&](std::vector<farm::Happened> events) {
    return *state_of(with(p, std::move(events)));
  };
  const State half =
      state({on(1, make_date(2026, 10, 20), farm::WorkDone{.field = 0, .operation = disk, .area_ha = 8.0})});
  REQUIRE(half.fields[0].running);
  CHECK(half.fields[0].running->area_ha == Approx(8.0));
  CHECK(half.fields[0].now.life.pools.at(straw::Place::mixed) == 0.0);
  const State left =
      state({on(1, make_date(2026, 10, 20),
                farm::WorkDone{.field = 0, .operation = disk, .area_ha = 8.0, .no_more = true})});
  CHECK_FALSE(left.fields[0].running);
  CHECK(left.fields[0].done.at(0).passes == 0);
  const State broken = state(
      {on(1, make_date(2026, 10, 20), farm::WorkDone{.field = 0, .operation = disk, .area_ha = 8.0}),
       on(2, make_date(2026, 10, 22), farm::WorkDone{.field = 0, .operation = chop, .finishes = true})});
  CHECK_FALSE(broken.fields[0].running);
  CHECK(broken.fields[0].now.lay == straw::Lay::chopped);
  CHECK(broken.fields[0].now.life.pools.at(straw::Place::mixed) > 0.0);
  season::YearDrivers drivers = season::drivers_of(p.years.years.front(), p.farm);
  season::FieldYear alone{p.farm, 0, drivers, {}};
  for (const int day : {p.farm.season.day(make_date(2026, 10, 20)), p.farm.season.day(p.as_of)}) {
    while (alone.day() < day) alone.end_day(0.0);
    if (day < p.farm.season.day(p.as_of))
      alone.apply(p.farm.book.operations[static_cast<std::size_t>(disk)], 8.0 / 20.0);
  }
  CHECK(left.fields[0].now.life.pools == alone.pools());
}

TEST_CASE("what was seen puts the model right by the stated rule", "[identity]") {
  const farm::Problem p = cut_farm();
  const Date day = make_date(2026, 11, 10);
  const auto state = [&](farm::FieldSeen seen) {
    farm::Problem now = with(p, {on(1, day, seen)});
    now.as_of = day;
    return *state_of(now);
  };
  Follow follow{p};
  const State model = follow.on(p.farm.season.day(day));
  const double on_top = model.fields[0].now.life.pools.on_top();
  const State counted = state({.field = 0, .straw_kg_per_ha = 2.0 * on_top});
  REQUIRE(counted.differences.size() == 1);
  const double v = std::pow(model.fields[0].straw_spread, 2), w = weighed_spread * weighed_spread;
  CHECK(counted.fields[0].now.life.pools.on_top() / on_top ==
        Approx(std::pow(2.0, v / (v + w))).epsilon(1e-9));
  CHECK(counted.fields[0].straw_spread < model.fields[0].straw_spread);
  CHECK(counted.differences[0].used == counted.fields[0].now.life.pools.on_top());
  const State flooded = state({.field = 0, .standing_mm = 45.0});
  CHECK(flooded.fields[0].now.life.water.ponded_mm == 45.0);
  season::FieldYear life{p.farm, 0, season::drivers_of(p.years.years.front(), p.farm), {}};
  for (const bool workable : {true, false}) {
    const State seen = state({.field = 0, .workable = workable});
    const season::YearDrivers drivers = season::drivers_of(p.years.years.front(), p.farm);
    season::FieldYear field{p.farm, 0, drivers, {}};
    field.go_on_from(seen.fields[0].now);
    CHECK(field.mask().workable == workable);
  }
}

TEST_CASE("a normal value known to lie beyond a limit", "[cross]") {
  // Against a sum over many slices of the same normal curve.
  for (const double limit : {-1.5, 0.0, 0.7, 3.0, 6.0}) {
    const double mean = 10.0, spread = 2.0;
    double mass = 0.0, first = 0.0, second = 0.0;
    for (double z = limit; z < limit + 12.0; z += 1e-4) {
      const double density = std::exp(-0.5 * z * z);
      mass += density;
      first += density * z;
      second += density * z * z;
    }
    const double m = first / mass, sd = std::sqrt(second / mass - m * m);
    const Cut cut = known_above(mean, spread, mean + spread * limit);
    CHECK(cut.mean == Approx(mean + spread * m).epsilon(1e-4));
    CHECK(cut.spread == Approx(spread * sd).epsilon(1e-2));
    CHECK(known_below(mean, spread, mean - spread * limit).mean == Approx(mean - spread * m).epsilon(1e-4));
  }
}

TEST_CASE("canal water that is on fills the field, and its fill is then done", "[identity]") {
  const farm::Problem p = cut_farm();
  const State s = *state_of(
      with(p, {on(1, make_date(2026, 11, 2),
                  farm::WorkDone{.field = 0, .operation = operation(p, "boards_in"), .finishes = true}),
               on(2, make_date(2026, 11, 3), farm::WaterTurned{0, true, 80.0})}));
  const FieldState& f = s.fields[0];
  CHECK(f.filled);
  CHECK(f.watered);
  CHECK(f.water_m3 > 0.0);
  REQUIRE(f.done.size() == 2);
  CHECK(f.done[1].operation == operation(p, "fill"));
  CHECK(f.now.life.water.ponded_mm > 20.0);
}

// Terms of hired outfits: when they come, for how much land, in whose order, who rakes and hauls, at what
// price.

#include "aftercut/dispatch/hired.hpp"

#include <algorithm>
#include <memory>

#include "aftercut/dispatch/money.hpp"
#include "aftercut/machinery/bales.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"
#include "hired_farm.hpp"
#include "rows.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const std::vector<std::string> four_baled{"bale", "bale", "bale", "chop_disk", "bale"};

struct Season {
  farm::Problem problem;
  dispatch::Table table;
  plan::Decision decision;
  std::vector<plan::YearRun> runs;
};

/// The table points into the problem: made in place and never moved.
std::unique_ptr<Season> play(farm::Problem problem, const std::vector<std::string>& methods) {
  auto s = std::make_unique<Season>();
  s->problem = std::move(problem);
  s->table = dispatch::make_table(s->problem, 7);
  s->decision = decide(s->problem.farm, methods);
  for (std::size_t y = 0; y < s->problem.years.years.size(); ++y)
    s->runs.push_back(dispatch::run(s->table, s->decision, y));
  return s;
}

std::vector<plan::Work> work_of(const Season& s, const plan::YearRun& run, const std::string& operation,
                                int field = plan::none) {
  std::vector<plan::Work> some;
  for (const auto& w : run.work)
    if (s.problem.farm.book.operations[static_cast<std::size_t>(w.operation)].id.value == operation &&
        (field == plan::none || w.field == field))
      some.push_back(w);
  return some;
}

std::int64_t hire_of(const plan::YearRun& run) {
  std::int64_t sum = 0;
  for (const auto& f : run.fields) sum += f.cost.hire;
  return sum;
}

}  // namespace

TEST_CASE("an outfit that comes by chance bales from its day on, and in some years never", "[identity]") {
  farm::Problem p = baling_problem(12);
  terms_of(p).comes = {{make_date(2026, 9, 25), 0.4}, {make_date(2026, 10, 10), 0.7}};
  const auto s = play(std::move(p), four_baled);
  int early = 0, late = 0, never = 0;
  for (std::size_t y = 0; y < s->runs.size(); ++y) {
    const int from = dispatch::HiredSeason{s->table, s->decision, y, false}.there_from()[baler_of_small_farm];
    const auto baled = work_of(*s, s->runs[y], "bale");
    for (const auto& w : baled) CHECK(w.day >= from);
    const auto& calendar = s->problem.farm.season;
    if (from == calendar.day(make_date(2026, 9, 25))) ++early;
    if (from == calendar.day(make_date(2026, 10, 10))) ++late;
    if (from < calendar.days) continue;
    ++never;
    CHECK(baled.empty());
    CHECK(s->runs[y].fields[0].fell_back);
  }
  CHECK(early + late + never == 12);
  CHECK(early > 0);
  CHECK(never > 0);
}

TEST_CASE("the day on which an outfit comes hangs on seed, year and its id alone", "[identity]") {
  farm::Problem p = baling_problem(8);
  terms_of(p).comes = {{make_date(2026, 9, 25), 0.5}};
  const auto days = [](const farm::Problem& problem) {
    const auto table = dispatch::make_table(problem, 7);
    const auto d = decide(problem.farm, four_baled);
    std::vector<int> all;
    for (std::size_t y = 0; y < problem.years.years.size(); ++y)
      for (std::size_t i = 0; i < problem.farm.implements.size(); ++i)
        if (problem.farm.implements[i].id.value == "baler")
          all.push_back(dispatch::HiredSeason{table, d, y, false}.there_from()[i]);
    return all;
  };
  farm::Problem more = p;
  more.farm.implements.insert(more.farm.implements.begin(),
                              small_implement("a-first", "rake", 5.0, 8.0, 0.8));
  CHECK(days(p) == days(more));
}

TEST_CASE("below its least area an outfit stays away; at it, it comes", "[identity]") {
  farm::Problem p = baling_problem(3);
  terms_of(p).least_area = Hectare{55.0};  // 20 + 12 + 16 + 7
  const auto enough = play(p, four_baled);
  for (const auto& run : enough->runs) CHECK_FALSE(work_of(*enough, run, "bale").empty());
  CHECK(dispatch::area_asked(enough->table, enough->decision, baler_of_small_farm) == Approx(55.0));
  const auto short_of = play(p, {"bale", "bale", "chop_disk", "chop_disk", "bale"});
  for (const auto& run : short_of->runs) {
    CHECK(work_of(*short_of, run, "bale").empty());
    CHECK(run.fields[0].fell_back);
  }
  // What a method costs alone is told as if the outfit came for it.
  dispatch::RunOptions alone;
  alone.only_field = 0;
  CHECK_FALSE(
      work_of(*short_of, dispatch::run(short_of->table, short_of->decision, 0, alone), "bale").empty());
}

TEST_CASE(
    "an outfit that charges for a least area is paid for it once, shared by what each field was charged",
    "[identity]") {
  farm::Problem p = baling_problem(4);
  terms_of(p).per_tonne = terms_of(p).per_hour = terms_of(p).call_out = Money{0.0};
  const auto plain = play(p, four_baled);
  terms_of(p).least_area = Hectare{80.0};
  terms_of(p).below_least = machinery::BelowLeast::charges_least;
  const auto charged = play(p, four_baled);
  for (std::size_t y = 0; y < plain->runs.size(); ++y) {
    double baled_ha = 0.0;
    for (const auto& w : work_of(*plain, plain->runs[y], "bale")) baled_ha += w.area_ha;
    if (baled_ha <= 0.0) continue;
    CHECK(baled_ha < 80.0 + 30.0);  // re-raked fields may be begun twice
    const double least = std::max(80.0, baled_ha);
    CHECK(static_cast<double>(hire_of(charged->runs[y])) == Approx(100.0 * 12.0 * least).margin(5.0));
    CHECK(charged->runs[y].work == plain->runs[y].work);
  }
}

TEST_CASE("fields are baled in the outfit's own order, the others after them", "[identity]") {
  farm::Problem p = baling_problem(6);
  terms_of(p).order = {FieldId{"3"}, FieldId{"5"}, FieldId{"1"}};
  const auto s = play(p, four_baled);
  int compared = 0;
  for (const auto& run : s->runs) {
    const auto span = [&](int field) {
      std::pair<int, int> minutes{1 << 30, -1};  // first start and last end, minutes of the season
      for (const auto& w : work_of(*s, run, "bale", field)) {
        minutes.first = std::min(minutes.first, w.day * 1440 + w.start_min);
        minutes.second = std::max(minutes.second, w.day * 1440 + w.end_min);
      }
      return minutes;
    };
    for (const auto& [before, after] : {std::pair{2, 4}, {4, 0}, {0, 1}}) {
      if (run.fields[static_cast<std::size_t>(before)].fell_back) continue;
      const auto a = span(before), b = span(after);
      if (a.second < 0 || b.second < 0) continue;
      ++compared;
      CHECK(a.second <= b.first);
    }
  }
  CHECK(compared > 3);
}

TEST_CASE("an outfit that rakes leaves the farm's rake, tractor and people at home", "[identity]") {
  farm::Problem p = baling_problem(4);
  const auto by_farm = play(p, four_baled);
  let_outfit_rake(p);
  const auto s = play(p, four_baled);
  const auto rake = static_cast<int>(s->problem.farm.implements.size()) - 1;
  CHECK(s->problem.farm.implements.back().id.value == "baler+rake");
  std::size_t raked = 0;
  for (const auto& run : s->runs)
    for (const auto& w : work_of(*s, run, "rake")) {
      ++raked;
      CHECK(w.implement == rake);
      CHECK(w.tractor == plan::none);
      CHECK(w.crew[0] == plan::none);
      CHECK(w.fuel_l == 0.0);
    }
  CHECK(raked > 4);
  const auto people = [](const plan::CostParts& c) { return c.wages + c.own_labour; };
  CHECK(people(by_farm->runs[0].fields[0].cost) > people(s->runs[0].fields[0].cost));
  // Its rake makes windrows for its baler and scatters for nobody.
  for (const auto& outfits : s->table.outfits)
    for (std::size_t o = 0; o < outfits.size(); ++o)
      for (const auto& x : outfits[o])
        if (x.implement == rake) CHECK(s->problem.farm.book.operations[o].id.value == "rake");
}

TEST_CASE("the farm's rake works where another baler of the farm leaves raking to it", "[identity]") {
  farm::Problem p = baling_problem(1);
  machinery::Implement own = small_implement("own-baler", "baler", 5.0, 6.0, 0.7);
  p.farm.implements.push_back(own);
  let_outfit_rake(p);
  const auto table = dispatch::make_table(p, 7);
  const auto rake = [&] {
    for (std::size_t o = 0; o < p.farm.book.operations.size(); ++o)
      if (p.farm.book.operations[o].id.value == "rake") return o;
    return std::size_t{0};
  }();
  CHECK(table.outfits[0][rake].size() > 1);
  CHECK(p.farm.implements[static_cast<std::size_t>(table.outfits[0][rake].front().implement)].id.value ==
        "rake");
}

TEST_CASE("water waits until the outfit has taken the bales off", "[identity]") {
  farm::Problem p = baling_problem(5);
  for (auto& f : p.farm.fields) f.locked.reset();
  const std::vector<std::string> flooded{"bale_flood", "bale_flood", "chop_disk", "chop_disk", "chop_disk"};
  terms_of(p).bales_off_by = make_date(2026, 11, 20);
  p.farm.implements.front().kind = "torch";  // no wagon of the farm is needed
  const auto s = play(p, flooded);
  int waited = 0;
  for (std::size_t y = 0; y < s->runs.size(); ++y) {
    CHECK(work_of(*s, s->runs[y], "haul").empty());
    for (int f = 0; f < 2; ++f) {
      if (s->runs[y].fields[static_cast<std::size_t>(f)].fell_back) continue;
      for (const auto& w : work_of(*s, s->runs[y], "boards_in", f)) {
        CHECK(w.day > s->problem.farm.season.day(make_date(2026, 11, 20)));
        ++waited;
      }
    }
  }
  CHECK(waited > 0);
}

TEST_CASE("bales are paid for and sold one by one, tonnes and area beside them", "[derived]") {
  farm::Problem p = baling_problem(1);
  machinery::Hire& terms = terms_of(p);
  terms.per_ha = terms.per_hour = terms.call_out = Money{0.0};
  terms.per_tonne = Money{2.0};
  terms.per_bale = Money{9.0};
  p.farm.prices.straw_per_tonne = Money{10.0};
  p.farm.prices.straw_per_bale = Money{3.0};
  p.farm.prices.straw_per_ha = Money{7.0};
  p.farm.bales.storage_loss = 0.10;
  const auto table = dispatch::make_table(p, 7);
  // 44.0 t dry is 50 t of bales at 12 %: 125 bales of 400 kg.
  const plan::CostParts c = dispatch::baled_cost(table, baler_of_small_farm, 44000.0, 10.0);
  check({{"hire: 50 t x 2 + 125 x 9", "rules of work, Money", Kind::derived, 1225.0,
          static_cast<double>(c.hire) / 100.0, 0.005},
         {"income: 0.9 (50 x 10 + 125 x 3) + 10 ha x 7", "rules of work, Money", Kind::derived, 857.5,
          -static_cast<double>(c.straw_income) / 100.0, 0.005},
         {"twine: 50 t x 2.2", "rules of work, Money", Kind::derived, 110.0,
          static_cast<double>(c.twine) / 100.0, 0.005}});
  // One kilogram more begins the next bale.
  CHECK(dispatch::baled_cost(table, baler_of_small_farm, 44001.0, 10.0).hire - c.hire >= 900);
}

TEST_CASE("a machine in the shop does no work, whatever the plan would like", "[identity]") {
  farm::Problem p = baling_problem(3);
  const machinery::DateRange shop{make_date(2026, 10, 1), make_date(2027, 4, 5), "in the shop"};
  for (auto& t : p.farm.tractors)
    if (t.id.value == "T1") t.away = {shop};
  const auto s = play(p, four_baled);
  std::size_t elsewhere = 0;
  for (const auto& run : s->runs)
    for (const auto& w : run.work) {
      if (w.tractor != 0) continue;
      ++elsewhere;
      const Date day = s->problem.farm.season.date(w.day);
      CHECK((day < shop.from || day > shop.to));
    }
  CHECK(elsewhere > 0);
}

TEST_CASE("what no tractor pulls is refused with the figures", "[identity]") {
  farm::Problem p = baling_problem(1);
  for (auto& t : p.farm.tractors) t.pto_power = KiloWatt{20.0};
  const auto table = dispatch::make_table(p, 7);
  const auto& why = table.why_not[0][static_cast<std::size_t>(recipe_named(p.farm, "chop_disk"))];
  bool chisel = false;
  for (const auto& w : why)
    chisel = chisel || w.starts_with("no tractor is strong enough to chisel: chisel 4.0 m at 7.0 km/h asks ");
  CAPTURE(why);
  CHECK(chisel);
}

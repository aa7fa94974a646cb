// Fields lived side by side against fields lived one by one, and the balances of a field's life.

#include <cstring>
#include <functional>

#include "aftercut/core/random.hpp"
#include "aftercut/season/field_year.hpp"
#include "catch2/catch.hpp"
#include "season_farm.hpp"

using namespace aftercut;
using season::FieldYear;
using season::Life;
using test::season_farm;

namespace {

const std::vector<season::YearDrivers>& drivers() {
  static const std::vector<season::YearDrivers> all = [] {
    std::vector<season::YearDrivers> made;
    for (const auto& year : season_farm().years.years)
      made.push_back(season::drivers_of(year, season_farm().farm));
    return made;
  }();
  return all;
}

std::vector<FieldYear> some_fields(std::size_t count) {
  std::vector<FieldYear> fields;
  for (std::size_t i = 0; i < count; ++i)
    fields.emplace_back(season_farm().farm, i % season_farm().farm.fields.size(),
                        drivers()[i % drivers().size()], method::HarvestSetting{});
  return fields;
}

std::vector<FieldYear*> pointers_to(std::vector<FieldYear>& fields) {
  std::vector<FieldYear*> all;
  for (FieldYear& f : fields) all.push_back(&f);
  return all;
}

bool same_bits(const Life& a, const Life& b) { return std::memcmp(&a, &b, sizeof(Life)) == 0; }

/// The same random work and boards for both.
void work_on(FieldYear& a, FieldYear& b, Draws& draws) {
  const auto& operations = season_farm().farm.book.operations;
  if (a.pools().total() > 0.0 && draws.uniform() < 0.05) {
    const auto& op = operations[draws.below(static_cast<std::uint32_t>(operations.size()))];
    const double share = draws.uniform() < 0.5 ? 1.0 : draws.uniform();
    a.apply(op, share);
    b.apply(op, share);
  }
  if (draws.uniform() < 0.02) {
    const double boards = draws.uniform() < 0.5 ? 150.0 : 0.0;
    a.set_boards(boards);
    b.set_boards(boards);
  }
}

/// A field in February that has been baled, burned and disked in part.
Life worked_life() {
  FieldYear field = some_fields(2)[1];
  while (field.day() < 60) field.end_day(0.0);
  for (const auto& op : season_farm().farm.book.operations)
    if (op.id.value == "bale" || op.id.value == "burn" || op.id.value == "disk") field.apply(op, 0.5);
  while (field.day() < 150) field.end_day(0.0);
  return field.life();
}

}  // namespace

TEST_CASE("fields side by side live what they live alone, bit for bit", "[identity]") {
  for (const std::size_t count : {1U, 2U, 4U, 7U}) {
    std::vector<FieldYear> alone = some_fields(count), together = some_fields(count);
    const std::vector<FieldYear*> all = pointers_to(together);
    Draws draws{11, stream_of("side by side")};
    for (int day = 0; day < season_farm().farm.season.days; ++day) {
      for (std::size_t i = 0; i < count; ++i) {
        work_on(alone[i], together[i], draws);
        const double water = draws.uniform() < 0.1 ? 25.0 * draws.uniform() : 0.0;
        if (day % 9 == 8) together[i].end_day(water);
        alone[i].end_day(day % 9 == 8 ? water : 0.0);
      }
      if (day % 9 != 8) live_until(all, day + 1);
    }
    for (std::size_t i = 0; i < count; ++i) {
      CAPTURE(count, i);
      CHECK(alone[i].day() == together[i].day());
      CHECK(same_bits(alone[i].life(), together[i].life()));
    }
  }
}

TEST_CASE("a run of days side by side is the days one by one", "[identity]") {
  std::vector<FieldYear> alone = some_fields(6), together = some_fields(6);
  const std::vector<FieldYear*> all = pointers_to(together);
  for (const int until : {5, 40, 41, 200, season_farm().farm.season.days}) {
    live_until(all, until);
    for (std::size_t i = 0; i < alone.size(); ++i) {
      while (alone[i].day() < until) alone[i].end_day(0.0);
      CHECK(same_bits(alone[i].life(), together[i].life()));
    }
  }
}

TEST_CASE("side by side refuses fields at different days; no field takes canal water below zero",
          "[identity]") {
  std::vector<FieldYear> fields = some_fields(2);
  const std::vector<FieldYear*> all = pointers_to(fields);
  fields[1].end_day(0.0);
  CHECK_THROWS_AS(live_until(all, 9), InternalError);
  CHECK_THROWS_AS(fields[0].end_day(-1.0), InternalError);
}

TEST_CASE("a straw or nitrogen flux that is left out is noticed", "[identity]") {
  const double content = drivers().front().rates.nitrogen.content_kg_per_kg;
  const Life sound = worked_life();
  REQUIRE_NOTHROW(require_balanced(sound, content));
  const std::vector<std::function<double&(Life&)>> fluxes{
      [](Life& l) -> double& { return l.straw.decayed; },
      [](Life& l) -> double& { return l.straw.baled; },
      [](Life& l) -> double& { return l.straw.burned; },
      [](Life& l) -> double& { return l.nitrogen_sum.from_soil; },
      [](Life& l) -> double& { return l.nitrogen_sum.to_soil; },
      [](Life& l) -> double& { return l.nitrogen_sum.baled; },
      [](Life& l) -> double& { return l.nitrogen_sum.burned; },
      [](Life& l) -> double& { return l.nitrogen.in_microbes; },
      [](Life& l) -> double& { return l.nitrogen.in_straw; }};
  for (std::size_t k = 0; k < fluxes.size(); ++k) {
    CAPTURE(k);
    Life life = sound;
    REQUIRE(fluxes[k](life) > 0.0);
    fluxes[k](life) = 0.0;
    CHECK_THROWS_AS(require_balanced(life, content), InternalError);
    life = sound;
    fluxes[k](life) *= 1.0 + 1e-6;
    CHECK_THROWS_AS(require_balanced(life, content), InternalError);
  }
}

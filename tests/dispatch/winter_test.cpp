// Straw and seedbed of a field on a morning a week, as a run keeps them.

#include "aftercut/farm/wishes.hpp"
#include "catch2/catch.hpp"
#include "decisions.hpp"

using namespace aftercut;

namespace {

struct Kept {
  farm::Problem problem = test::small_problem(4);
  dispatch::Table table = dispatch::make_table(problem, 7);
  plan::Decision decision = test::decide(problem.farm, test::mixed_methods);
  [[nodiscard]] plan::YearRun run(std::size_t year, const dispatch::RunOptions& options) const {
    return dispatch::run(table, decision, year, options);
  }
};

const Kept& kept() {
  static const Kept k;
  return k;
}

}  // namespace

TEST_CASE("keeping the winter changes nothing else, whether a field is lived on or not", "[identity]") {
  for (std::size_t y = 0; y < 4; ++y) {
    plan::YearRun with = kept().run(y, {.keep_winter = true});
    CHECK(with.winter == kept().run(y, {.keep_workable = true, .keep_winter = true}).winter);
    with.winter.clear();
    CHECK(with == kept().run(y, {}));
  }
}

TEST_CASE("a morning a week from harvest to planting, straw never more than there was", "[identity]") {
  const farm::Farm& farm = kept().problem.farm;
  for (std::size_t y = 0; y < 4; ++y) {
    const auto winters = kept().run(y, {.keep_winter = true}).winter;
    REQUIRE(winters.size() == farm.fields.size());
    for (std::size_t f = 0; f < winters.size(); ++f) {
      const farm::Field& field = farm.fields[f];
      const int first = std::max(farm.season.day(field.harvest) + 1, farm.season.day(kept().problem.as_of));
      const int last = farm::seedbed_due(field) ? farm.season.day(field.next.planting) : farm.season.days - 1;
      REQUIRE(winters[f].size() == static_cast<std::size_t>((last - first) / 7 + 1));
      double before = field.straw_load.value() + 1e-6;
      for (std::size_t k = 0; k < winters[f].size(); ++k) {
        const plan::WinterMorning& m = winters[f][k];
        CHECK(m.day == first + 7 * static_cast<int>(k));
        CHECK(m.straw_kg_per_ha <= before);
        CHECK(m.pores_full > 0.0);
        CHECK(m.pores_full <= 1.0);
        before = m.straw_kg_per_ha;
      }
    }
  }
}

#include "aftercut/planner/bound_proof.hpp"

#include "aftercut/core/require.hpp"
#include "aftercut/planner/search.hpp"
#include "catch2/catch.hpp"
#include "random_decisions.hpp"

using namespace aftercut;
using namespace aftercut::planner;

namespace {

/// Four years with days so short that fields wait for one another, every method open.
farm::Problem busy_problem() {
  farm::Problem p = test::open_problem(4);
  for (auto& o : p.farm.operators) o.hours_per_day = Hours{2.0};
  return p;
}

/// That, and the bound after some rounds.
struct BoundCase {
  farm::Problem problem = busy_problem();
  dispatch::Table table = dispatch::make_table(problem, 1);
  std::vector<std::size_t> years{0, 1, 2, 3};
  BoundModel model = make_bound_model(table, years, 2);
  Found found = search({&table, years, 1, 1, 40, {}});
  Bound bound = lower_bound({&model, static_cast<double>(found.cost), 15, 1, {}});
};
const BoundCase& solved() {
  static const BoundCase made;
  return made;
}

}  // namespace

TEST_CASE("a proof says of its prices what the climb said, to the cent", "[identity]") {
  const BoundCase& c = solved();
  const auto proof = proof_of(c.model, c.bound.prices, c.found.decision.method, 15, 1);
  CHECK(static_cast<double>(proof.cents) == c.bound.cents);
  CHECK(static_cast<double>(proof.without_prices) == rounded_down(c.bound.without_prices));
  CHECK(proof.cents > proof.without_prices);
  CHECK(proof.cents_a_year * 4 <= proof.cents);
  CHECK((proof.cents_a_year + 1) * 4 > proof.cents);
  for (std::size_t f = 0; f < proof.fields.size(); ++f) CHECK(proof.fields[f].method == c.bound.method[f]);
}

TEST_CASE("the prices of a proof are those that it was made of, and threads do not matter", "[identity]") {
  const BoundCase& c = solved();
  const auto proof = proof_of(c.model, c.bound.prices, c.found.decision.method, 15, 1);
  CHECK(prices_of(c.model, proof) == c.bound.prices);
  CHECK(proof_of(c.model, prices_of(c.model, proof), c.found.decision.method, 15, 2) == proof);
  std::size_t priced = 0;
  for (const auto& year : proof.years) priced += year.prices.size();
  CHECK(priced > 0);
}

TEST_CASE("a proof tells every possible method in full, also those that cannot be the cheapest",
          "[identity]") {
  const BoundCase& c = solved();
  const auto proof = proof_of(c.model, c.bound.prices, c.found.decision.method, 15, 1);
  const Evaluated e = evaluate(c.model, c.bound.prices, 1);
  std::size_t above = 0;
  for (std::size_t f = 0; f < proof.fields.size(); ++f) {
    std::size_t possible = 0;
    for (const auto& why : c.table.why_not[f]) possible += why.empty() ? 1 : 0;
    CHECK(proof.fields[f].methods.size() == possible);
    for (const plan::MethodFloor& m : proof.fields[f].methods) {
      const double quick = e.by_method[f][static_cast<std::size_t>(m.method)];
      CHECK(m.cents >= quick);  // there a method stops at its cost without prices
      above += m.cents > quick ? 1 : 0;
      const bool told = m.method == proof.fields[f].method || m.method == c.found.decision.method[f];
      CHECK(m.by_year.size() == (told ? 4 : 0));
    }
  }
  CHECK(above > 0);
}

TEST_CASE("prices below zero make no proof", "[identity]") {
  const BoundCase& c = solved();
  auto prices = c.bound.prices;
  prices.front().back() = -0.5;
  CHECK_THROWS_AS(proof_of(c.model, prices, c.found.decision.method, 15, 1), InternalError);
}

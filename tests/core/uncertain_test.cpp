// How ranges of independent figures are put together.
#include "aftercut/core/uncertain.hpp"

#include "catch2/catch.hpp"
#include "rows.hpp"

using namespace aftercut;

TEST_CASE("sums and products of independent figures", "[derived]") {
  const Uncertain sum = sum_of_independent({10.0, 7.0, 14.0}, {5.0, 1.0, 8.0});
  const Uncertain product = product_of_independent({2.0, 1.0, 4.0}, {3.0, 3.0, 3.0});
  test::check({{"sum", "definition", test::Kind::derived, 15.0, sum.mid, 1e-12},
               {"its low end, 3 and 4", "definition", test::Kind::derived, 10.0, sum.low, 1e-12},
               {"its high end, 4 and 3", "definition", test::Kind::derived, 20.0, sum.high, 1e-12},
               {"a product with an exact factor keeps its range", "definition", test::Kind::derived, 12.0,
                product.high, 1e-12}});
  const Uncertain same = sum_of_independent(exactly(2.0), exactly(3.0));
  CHECK(same == exactly(5.0));
  CHECK_THROWS(product_of_independent(exactly(0.0), exactly(1.0)));
}

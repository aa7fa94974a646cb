// Work over threads: every index once, the same results, the first exception.
#include "aftercut/core/parallel.hpp"

#include <atomic>
#include <stdexcept>
#include <string>
#include <vector>

#include "aftercut/core/random.hpp"
#include "catch2/catch.hpp"

using namespace aftercut;

namespace {

std::vector<double> sums(int threads) {
  std::vector<double> out(500);
  for_each_index(out.size(), threads, [&](std::size_t i) {
    Draws draws{42, stream_of("parallel"), i};
    for (int k = 0; k < 50; ++k) out[i] += draws.normal();
  });
  return out;
}

}  // namespace

TEST_CASE("the results do not depend on the number of threads", "[identity]") {
  const std::vector<double> one = sums(1);
  for (const int threads : {2, 4, 16, 0, -3}) CHECK(sums(threads) == one);
}

TEST_CASE("every index runs once", "[identity]") {
  for (const int threads : {1, 2, 4}) {
    std::vector<std::atomic<int>> runs(1000);
    for_each_index(runs.size(), threads, [&](std::size_t i) { ++runs[i]; });
    for (const auto& n : runs) CHECK(n == 1);
  }
  int none = 0;
  for_each_index(0, 4, [&](std::size_t) { ++none; });
  CHECK(none == 0);
}

TEST_CASE("the exception of the lowest index comes out, with any number of threads", "[identity]") {
  for (const int threads : {1, 2, 4}) {
    std::string said;
    try {
      for_each_index(200, threads, [](std::size_t i) {
        if (i == 17 || i == 18 || i == 150) throw std::runtime_error{std::to_string(i)};
      });
    } catch (const std::runtime_error& error) {
      said = error.what();
    }
    CHECK(said == "17");
  }
}

#pragma once
// A tiny problem held against exact methods: the bound, the optimum of the relaxed model, the plan; and what
// is wrong when they do not stand in this order. The checks are one function, so that bounds spoiled on
// purpose go through the same ones.

#include <memory>
#include <string>
#include <vector>

#include "oracle.hpp"

namespace aftercut::test {

/// Problem, table and bound model of a tiny problem, with a plan searched on all its years.
struct TinyCase {
  std::unique_ptr<farm::Problem> problem;
  std::unique_ptr<dispatch::Table> table;
  planner::BoundModel model;
  plan::Decision decision;
  double plan_cents = 0.0;
};
TinyCase tiny_case(farm::Problem problem, int evaluations);

/// Cents, sums over the years.
struct Held {
  double bound = 0.0, without_prices = 0.0;
  double optimum = 0.0;  ///< of the relaxed model, the best that is known
  double proven = 0.0;   ///< below which it has none
  double plan = 0.0;
  bool closed = false;  ///< optimum and proven agree
};

/// In words; empty: all is in order.
std::vector<std::string> faults_of(const Held& held);

/// Least, mean and most of a ratio.
struct Spread {
  double least = 0.0, mean = 0.0, middle = 0.0, most = 0.0;
  std::size_t count = 0;
};
Spread spread_of(std::vector<double> values);
std::string words_of(const std::string& what, const Spread& spread);

}  // namespace aftercut::test

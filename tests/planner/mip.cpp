#include "mip.hpp"

#include <coin/Cbc_C_Interface.h>

#include <algorithm>
#include <ctime>
#include <limits>
#include <memory>
#include <string>

namespace aftercut::test {
namespace {

constexpr double time_surely_left = 0.8;  // of the limit
constexpr double no_limit = std::numeric_limits<double>::max();

struct Unload {
  void operator()(void* model) const { Cbc_deleteModel(static_cast<Cbc_Model*>(model)); }
};

void set(Cbc_Model* model, const char* name, double value) {
  Cbc_setParameter(model, name, std::to_string(value).c_str());
}

}  // namespace

int Mip::column(double cost, double most, bool whole) {
  cost_.push_back(cost);
  most_.push_back(most);
  whole_.push_back(whole ? 1 : 0);
  entries_.emplace_back();
  return static_cast<int>(cost_.size()) - 1;
}

void Mip::row(double least, double most, const Terms& terms) {
  const int row = static_cast<int>(row_most_.size());
  row_least_.push_back(least);
  row_most_.push_back(most);
  for (const auto& [column, value] : terms) {
    auto& entries = entries_[static_cast<std::size_t>(column)];
    if (!entries.empty() && entries.back().row == row) {
      entries.back().value += value;
    } else {
      entries.push_back({row, value});
    }
  }
}

void Mip::at_most(double most, const Terms& terms) { row(-no_limit, most, terms); }

std::size_t Mip::whole_columns() const {
  return static_cast<std::size_t>(std::count(whole_.begin(), whole_.end(), 1));
}

void* Mip::loaded() const {
  std::vector<CoinBigIndex> start{0};
  std::vector<int> index;
  std::vector<double> value;
  for (const auto& column : entries_) {
    for (const Entry& e : column) {
      index.push_back(e.row);
      value.push_back(e.value);
    }
    start.push_back(static_cast<CoinBigIndex>(index.size()));
  }
  const std::vector<double> least(cost_.size(), 0.0);
  Cbc_Model* model = Cbc_newModel();
  Cbc_setParameter(model, "log", "0");
  Cbc_loadProblem(model, static_cast<int>(cost_.size()), static_cast<int>(row_most_.size()), start.data(),
                  index.data(), value.data(), least.data(), most_.data(), cost_.data(), row_least_.data(),
                  row_most_.data());
  for (std::size_t c = 0; c < whole_.size(); ++c)
    if (whole_[c] != 0) Cbc_setInteger(model, static_cast<int>(c));
  return model;
}

MipEnd Mip::solve(const MipLimits& limits) const {
  const std::unique_ptr<void, Unload> held{loaded()};
  auto* model = static_cast<Cbc_Model*>(held.get());
  set(model, "seconds", limits.seconds);
  set(model, "ratioGap", limits.relative_gap);
  if (limits.cutoff < 1e49) set(model, "cutoff", limits.cutoff - constant_);
  const std::clock_t began = std::clock();
  Cbc_solve(model);
  const double used_s = static_cast<double>(std::clock() - began) / CLOCKS_PER_SEC;
  MipEnd end;
  const double* solution = Cbc_getColSolution(model);
  const double best = Cbc_getObjValue(model);
  end.found = Cbc_numberSavedSolutions(model) > 0 && solution != nullptr && best < 1e49;
  end.proven = std::min(Cbc_getBestPossibleObjValue(model) + constant_, limits.cutoff);
  // CBC also says that it came to an end when its time ran out before a first solution.
  const bool to_the_end = Cbc_status(model) == 0 && !Cbc_isSecondsLimitReached(model) &&
                          used_s < time_surely_left * limits.seconds;
  if (to_the_end && !end.found) end.proven = limits.cutoff;
  if (!end.found) return end;
  end.cost = best + constant_;
  end.proven = std::min(end.proven, end.cost);
  end.solution.assign(solution, solution + cost_.size());
  return end;
}

}  // namespace aftercut::test

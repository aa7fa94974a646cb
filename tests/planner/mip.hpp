#pragma once
// A mixed integer programme, least cost, given to CBC. Only tests and benches use it: nothing of the program
// is solved this way.

#include <utility>
#include <vector>

namespace aftercut::test {

/// Coefficients by column.
using Terms = std::vector<std::pair<int, double>>;

struct MipLimits {
  double cutoff = 1e50;  ///< nothing dearer is looked for
  double seconds = 60.0;
  double relative_gap = 0.0;  ///< good enough
};

struct MipEnd {
  bool found = false;            ///< a solution
  double cost = 0.0;             ///< of the best solution
  double proven = 0.0;           ///< no solution costs less (the cutoff, when there is none below it)
  std::vector<double> solution;  ///< [column]
};

/// Columns lie between 0 and their most, rows between their bounds.
class Mip {
 public:
  int column(double cost, double most, bool whole = false);
  void row(double least, double most, const Terms& terms);
  void at_most(double most, const Terms& terms);
  void add_cost(int column, double cost) { cost_[static_cast<std::size_t>(column)] += cost; }
  void add_constant(double cost) { constant_ += cost; }

  [[nodiscard]] std::size_t columns() const { return cost_.size(); }
  [[nodiscard]] std::size_t rows() const { return row_most_.size(); }
  [[nodiscard]] std::size_t whole_columns() const;

  [[nodiscard]] MipEnd solve(const MipLimits& limits) const;

 private:
  struct Entry {
    int row = 0;
    double value = 0.0;
  };
  void* loaded() const;  // Cbc_Model
  double constant_ = 0.0;
  std::vector<double> cost_, most_;
  std::vector<char> whole_;
  std::vector<double> row_least_, row_most_;
  std::vector<std::vector<Entry>> entries_;  // [column]
};

}  // namespace aftercut::test

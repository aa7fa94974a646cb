#pragma once
// Columns and rows of one chain of passes in the oracle's programme.

#include <map>

#include "aftercut/planner/bound.hpp"
#include "mip.hpp"

namespace aftercut::test {

/// People who are alike in wage, skills and hours, together: what one could do, each of them could.
using Alike = std::vector<std::vector<std::size_t>>;
Alike people_alike(const dispatch::Table& table);

/// Where a chain stands, and the minutes that all chains of its year share.
struct ChainPlace {
  const planner::BoundModel* model = nullptr;
  std::size_t field = 0;
  std::vector<Terms>* hours =
      nullptr;  ///< [resource * days + day] of the year; people by the first of those alike
  const Alike* people = nullptr;
};

class ChainColumns {
 public:
  /// The first `passes` passes, worked at `scale` of the area, where the columns `on` add up to 1.
  ChainColumns(Mip& mip, const ChainPlace& place, const planner::Chain& chain, std::size_t passes, Terms on,
               double scale);

  /// Adds up to 1 where all passes are ended, or left out, by the day.
  Terms ended_by(int day);
  /// All of them have to end.
  void require_end();

 private:
  struct Pass {
    std::vector<std::size_t> open;   ///< open days on which someone can come
    std::vector<int> done;           ///< [open] column: share of the area done by that day
    std::map<std::size_t, int> end;  ///< [open] column: ended by that day
    std::map<int, int> skipped_by;   ///< [day] column
    int left_out = -1;               ///< column
  };
  Terms ended(std::size_t passes, int day);
  int end_column(std::size_t pass, std::size_t k);
  void add_pass(std::size_t pass);
  void add_work(std::size_t pass, std::size_t k, const Terms& may_be_done);
  Terms add_ways(std::size_t pass, std::size_t open_day);
  void add_end_money(std::size_t pass);
  [[nodiscard]] int latest_before(const planner::Opening& o, std::size_t open_day) const;
  [[nodiscard]] double area(std::size_t pass) const;

  Mip& mip_;
  ChainPlace place_;
  const planner::Chain& chain_;
  Terms on_;
  double scale_ = 1.0;
  std::vector<Pass> passes_;
};

}  // namespace aftercut::test

#pragma once
// Inside room journal: one entry after the other put into a problem, with every fault gathered.

#include <fmt/format.h>

#include "aftercut/journal/settle.hpp"

namespace aftercut::journal {

class Settling {
 public:
  Settling(farm::Problem problem, std::string file);
  void put(const Entry& entry);
  /// The problem with its events, or what is wrong.
  Result<farm::Problem> result() &&;
  /// The problem with its events in order, whatever is wrong and whether its weather is there or not.
  farm::Problem as_put() &&;
  [[nodiscard]] const std::vector<EntryFault>& faults() const { return faults_; }

 private:
  void say(const std::string& place_in_entry, std::string found, std::string expected, std::string fix);
  void add(decltype(farm::Happened::what) what);
  std::optional<std::size_t> field();
  std::optional<int> operation(const std::string& id);
  /// Machines and people by id; false when one is not known.
  bool put_with(const std::vector<std::string>& ids, const method::Operation& op, farm::WorkDone& work);
  bool cut_by_then(std::size_t field);

  void settle(const Harvested& x);
  void settle(const Worked& x);
  void settle(const Rain& x);
  void settle(const Looked& x);
  void settle(const BurnWord& x);
  void settle(const Water& x);
  void settle(const Bales& x);
  void settle(const Presence& x);
  void settle(const Word& x);
  void settle(const TakenBack&) {}

  void put_in_order();
  void still_standing();
  Issues weather();

  farm::Problem problem_;
  std::string file_;
  const Entry* entry_ = nullptr;
  struct Baled {
    double counted = 0.0, hauled = 0.0;
    double hauled_ha = 0.0;  // given to the hauls so far
    [[nodiscard]] double lie() const { return counted - hauled; }
  };
  std::vector<Baled> bales_;  // [field]
  std::vector<EntryFault> faults_;
};

}  // namespace aftercut::journal

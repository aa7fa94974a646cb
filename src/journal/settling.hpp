#pragma once
// Inside room journal: one entry after the other put into a problem, with every fault gathered.

#include <fmt/format.h>

#include "aftercut/journal/settle.hpp"

namespace aftercut::journal {

class Settling {
 public:
  /// `standing` outlives it.
  Settling(farm::Problem problem, std::string file, const std::vector<Entry>& standing);
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

  void put(const Entry& entry);
  /// Behind the last entry: what the bales that were hauled come to.
  void haul_bales();
  void put_in_order();
  void still_standing();
  Issues weather();

  farm::Problem problem_;
  std::string file_;
  const Entry* entry_ = nullptr;
  struct BalesSaid {
    const Entry* entry;
    double counted = 0.0, hauled = 0.0;
  };
  void haul_bales_of(std::size_t field, int haul);
  std::vector<std::vector<BalesSaid>> bales_;  // [field], as written down
  std::vector<EntryFault> faults_;
};

/// The farm's implement of the kind, where it has one only.
std::optional<int> only_one_of_kind(const farm::Farm& farm, const std::string& kind);

}  // namespace aftercut::journal

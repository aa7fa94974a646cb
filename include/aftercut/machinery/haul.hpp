#pragma once
// Bales of many fields shared out over stacks.

#include <cstddef>
#include <optional>
#include <vector>

namespace aftercut::machinery {

struct Haul {
  std::size_t field = 0, stack = 0;
  int bales = 0;
  double metres = 0.0;
  friend bool operator==(const Haul&, const Haul&) = default;
};

struct Hauls {
  std::vector<Haul> hauls;        ///< by stack, then field
  std::vector<int> without_room;  ///< [field] bales that fit nowhere
};

/// The shortest way first, as long as there is room: pairs of field and stack by metres, then field, then
/// stack. A field's bales may go to several stacks. `room`: nothing: any number. `metres`: [field][stack].
Hauls share_out(const std::vector<int>& bales, const std::vector<std::optional<int>>& room,
                const std::vector<std::vector<double>>& metres);

}  // namespace aftercut::machinery

#pragma once
// Names that the farm gives to its things. A field's name cannot be passed where a machine's is wanted.

#include <compare>
#include <string>

namespace aftercut {

template <class Tag>
struct Id {
  std::string value;
  friend auto operator<=>(const Id&, const Id&) = default;
};

using FieldId = Id<struct FieldTag>;
using MachineId = Id<struct MachineTag>;  ///< a tractor, an implement or a hired outfit
using OperatorId = Id<struct OperatorTag>;
using MethodId = Id<struct MethodTag>;
using OperationId = Id<struct OperationTag>;

/// Orders "2" before "10": runs of digits compare as numbers, all else as bytes.
bool natural_less(const std::string& a, const std::string& b);

}  // namespace aftercut

#include "aftercut/farm/measure.hpp"

#include "units.hpp"

namespace aftercut::farm {

std::optional<double> measured(std::string_view text, const std::string& unit) {
  const auto parts = split_quantity(text);
  if (!parts || parts->unit.empty()) return std::nullopt;
  return convert(parts->number, parts->unit, unit);
}

std::optional<double> plain_number(std::string_view text) { return parse_number(text); }

}  // namespace aftercut::farm

#pragma once
// Units of measure by UDUNITS-2, with the names that growers write set by us.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace aftercut::farm {

/// `value` of unit `from` in unit `to`; nothing when a unit is unknown or they do not measure the same thing.
/// Not for use from several threads (the unit parser keeps state).
std::optional<double> convert(double value, const std::string& from, const std::string& to);
bool is_unit(const std::string& unit);

/// A unit suffix of a key or column and its unit: "kg_per_ha" -> "kg/ha".
struct Suffix {
  std::string suffix;
  std::string unit;
};
const std::vector<Suffix>& unit_suffixes();

/// "yield_kg_per_ha" -> {"yield", "kg_per_ha"} when the base is in `bases`; a key that is itself a base has
/// an empty suffix.
struct KeyParts {
  std::string base;
  std::string suffix;
};
std::optional<KeyParts> parts_of(const std::string& key, const std::vector<std::string>& bases);

/// "9200 lb/acre" -> 9200 and "lb/acre". Nothing when no finite number stands in front.
struct NumberAndUnit {
  double number = 0.0;
  std::string unit;
};
std::optional<NumberAndUnit> split_quantity(std::string_view text);
/// The whole text as one finite number.
std::optional<double> parse_number(std::string_view text);

/// "3.90 USD/gal" -> 3.90, "USD", "gal" ("" where no rate is meant).
struct MoneyText {
  double amount = 0.0;
  std::string currency;
  std::string per;
};
std::optional<MoneyText> split_money(std::string_view text);

}  // namespace aftercut::farm

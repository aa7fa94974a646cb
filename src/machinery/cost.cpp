#include "aftercut/machinery/cost.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/require.hpp"

namespace aftercut::machinery {
namespace {

struct ValueRow {
  const char* name;
  double c1, c2, c3;
};
// Source: D497.7 table 4 (recalled).
constexpr std::array<ValueRow, 9> value_rows{{{"tractor_under_60_kw", 0.981, 0.093, 0.0058},
                                              {"tractor_60_to_112_kw", 0.942, 0.100, 0.0008},
                                              {"tractor_over_112_kw", 0.976, 0.119, 0.0019},
                                              {"mower", 0.756, 0.067, 0.0},
                                              {"baler", 0.852, 0.101, 0.0},
                                              {"other_harvest", 0.791, 0.091, 0.0},
                                              {"plow", 0.738, 0.051, 0.0},
                                              {"tillage", 0.891, 0.110, 0.0},
                                              {"miscellaneous", 0.786, 0.063, 0.0}}};

struct RepairFactors {
  double rf1, rf2;
};

/// Tractors: D497.7 table 3 (recalled); every other class is a row of the implement table.
RepairFactors repair_factors(const std::string& repair_class) {
  if (repair_class == "tractor_two_wheel") return {0.007, 2.0};
  if (repair_class == "tractor_four_wheel") return {0.003, 2.0};
  const KindRow* row = row_of(repair_class);
  require(row != nullptr, "a repair class is a row of the repair table");
  return {row->repair_factor_1, row->repair_factor_2};
}

/// Taxes 1.00 %, housing 0.75 %, insurance 0.25 % of the price a year. Source: EP496.3 (recalled).
constexpr double other_ownership_share = 0.02;

}  // namespace

double capital_recovery_factor(double interest, double years) {
  require(interest >= 0.0 && years > 0.0, "capital recovery needs interest of 0 or more and years above 0");
  if (interest == 0.0) return 1.0 / years;
  const double growth = std::pow(1.0 + interest, years);
  return interest * growth / (growth - 1.0);
}

Money capital_recovery(Money price, Money salvage, double interest, double years) {
  return (price - salvage) * capital_recovery_factor(interest, years) + salvage * interest;
}

Fraction remaining_value(const std::string& value_class, double years, double hours_per_year) {
  const auto row = std::find_if(value_rows.begin(), value_rows.end(),
                                [&](const ValueRow& r) { return value_class == r.name; });
  require(row != value_rows.end(), "a value class is a row of the remaining-value table");
  require(years >= 0.0 && hours_per_year >= 0.0, "years and hours a year are 0 or more");
  const double root = row->c1 - row->c2 * std::sqrt(years) - row->c3 * std::sqrt(hours_per_year);
  return Fraction{root <= 0.0 ? 0.0 : root * root};
}

double repair_share(double rf1, double rf2, double hours) { return rf1 * std::pow(hours / 1000.0, rf2); }

HourlyCost hourly_cost(const Owning& owning) {
  if (owning.price == Money{0.0}) return {};
  require(owning.price.value() > 0.0 && owning.years > 0.0 && owning.hours_per_year > 0.0,
          "price, years and hours a year are above 0");
  const double life_h = owning.years * owning.hours_per_year;
  const RepairFactors rf = repair_factors(owning.repair_class);
  const Money salvage =
      owning.price * remaining_value(owning.value_class, owning.years, owning.hours_per_year).value();
  const Money a_year = capital_recovery(owning.price, salvage, owning.interest, owning.years) +
                       owning.price * other_ownership_share;
  return {owning.price * (repair_share(rf.rf1, rf.rf2, life_h) / life_h), a_year / owning.hours_per_year};
}

std::vector<std::string> value_classes() {
  std::vector<std::string> names;
  for (const ValueRow& row : value_rows) names.emplace_back(row.name);
  return names;
}

std::vector<std::string> repair_classes() {
  std::vector<std::string> names = known_kinds();
  names.emplace_back("tractor_two_wheel");
  names.emplace_back("tractor_four_wheel");
  return names;
}

std::string value_class_of_kind(const std::string& kind) {
  if (kind == "baler") return "baler";
  if (kind == "rake" || kind == "bale_wagon") return "other_harvest";
  if (kind == "chopper" || kind == "mower") return "mower";
  if (kind == "disk" || kind == "chisel") return "tillage";
  return "miscellaneous";
}

std::string value_class_of_tractor(KiloWatt pto_power) {
  if (pto_power < KiloWatt{60.0}) return "tractor_under_60_kw";
  return pto_power <= KiloWatt{112.0} ? "tractor_60_to_112_kw" : "tractor_over_112_kw";
}

std::string repair_class_of_tractor(Drive drive) {
  const bool four = drive == Drive::four_wheel || drive == Drive::track;
  return four ? "tractor_four_wheel" : "tractor_two_wheel";
}

}  // namespace aftercut::machinery

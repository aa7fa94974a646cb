#pragma once
// What an hour of a machine costs. Source: D497.7 tables 3 and 4, EP496.3 (recalled; A3-29 row read).

#include "aftercut/machinery/machines.hpp"

namespace aftercut::machinery {

double capital_recovery_factor(double interest, double years);
/// Share of list price left after n years at h hours a year: (C1 - C2 sqrt(n) - C3 sqrt(h))^2. Unknown class:
/// throws InternalError.
Fraction remaining_value(const std::string& value_class, double years, double hours_per_year);
/// Repairs up to `hours` as a share of list price: RF1 (h/1000)^RF2.
double repair_share(double rf1, double rf2, double hours);

struct HourlyCost {
  Money repair;     ///< out of pocket
  Money ownership;  ///< interest, depreciation, taxes, housing, insurance
};
/// Mean over the years owned [money/h]. Zero for a zero price.
HourlyCost hourly_cost(const Owning& owning);
std::vector<std::string> value_classes();
std::vector<std::string> repair_classes();

/// Yearly payment for price less salvage, and interest on the salvage: (P - S) CRF + S i [money a year].
Money capital_recovery(Money price, Money salvage, double interest, double years);

/// The usual row of the remaining-value table; "miscellaneous" for an unknown kind.
std::string value_class_of_kind(const std::string& kind);
std::string value_class_of_tractor(KiloWatt pto_power);
/// The usual row of the repair table: a kind's own row, or by the tractor's drive.
std::string repair_class_of_tractor(Drive drive);

}  // namespace aftercut::machinery

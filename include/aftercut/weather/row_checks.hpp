#pragma once
// Every fault of a daily record at once: values that cannot be, days out of order, gaps too long to fill.

#include <cstddef>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"
#include "aftercut/weather/series.hpp"

namespace aftercut::weather {

/// The faults in the order of the rows, first those of single rows, then the gaps. Empty: the record can be
/// completed.
Issues row_faults(const std::vector<Row>& rows, const Site& site, const GapRules& rules,
                  const std::string& file);

/// The first `most` issues, and one more that counts the rest.
Issues shortened(Issues issues, std::size_t most, const std::string& file);

}  // namespace aftercut::weather

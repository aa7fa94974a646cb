#pragma once
// Ready days of the shown years, and straw and seedbed through the winter: worked out again and compared.

#include <vector>

#include "facts.hpp"
#include "findings.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

/// The winter with this morning, where it is one of those that are looked at.
std::vector<plan::WinterMorning> winter_morning(const Facts& facts, int field,
                                                std::vector<plan::WinterMorning> winter,
                                                const season::FieldYear& life);
/// The days from the evening on which the seedbed was ready to planting: rain alone.
std::vector<plan::WinterMorning> winter_to_planting(const Facts& facts, int field,
                                                    std::vector<plan::WinterMorning> winter,
                                                    season::FieldYear life);

std::vector<plan::ReadyIn> read_ready_days(JsonIn& in, const Json& field, const std::string& place);
std::vector<plan::WinterWeek> read_winter(JsonIn& in, const Json& field, const std::string& place);

/// `runs` [year][field] and `winter` [year][field][week] as replayed in `years`.
Findings check_winter(const Facts& facts, const plan::Plan& plan, const std::vector<int>& years,
                      const std::vector<std::vector<plan::FieldRun>>& runs,
                      const std::vector<std::vector<std::vector<plan::WinterMorning>>>& winter);

}  // namespace aftercut::audit

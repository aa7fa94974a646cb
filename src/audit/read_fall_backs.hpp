#pragma once
// Fall-backs, money by month and troubles of plan.json read back.

#include "aftercut/plan/plan.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

std::vector<plan::HangsOn> read_hangs_on(JsonIn& in, const Json& chosen, const std::string& place);
std::vector<plan::FallBackTest> read_fall_back_tests(JsonIn& in, const Json& root);
std::vector<plan::MonthCash> read_cash(JsonIn& in, const Json& root);
std::vector<plan::Trouble> read_troubles(JsonIn& in, const Json& root);

}  // namespace aftercut::audit

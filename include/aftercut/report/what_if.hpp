#pragma once
// What-ifs beside the base plan: what-if.json, a table for the terminal, and each plan's own folder.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/audit/audit.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/what_if.hpp"

namespace aftercut::report {

/// The audits of one case: of the plan made afresh and of the base plan kept.
struct CaseAudit {
  audit::Audit planned, kept;
};

struct WhatIfShown {
  const farm::Problem* problem = nullptr;  ///< of the base plan
  const plan::WhatIf* what_if = nullptr;
  audit::Audit base;
  std::vector<CaseAudit> audits;                    ///< [case]
  std::vector<const farm::Problem*> case_problems;  ///< [case] that its plan was made for
};

/// what-if.json as text (docs/schema/what-if.schema.json).
std::string what_if_json(const WhatIfShown& shown);
/// A table that fits 100 columns, then a line a case.
std::string what_if_text(const WhatIfShown& shown);
/// what-if.json, and a plan folder each for `base` and every case, into `out`.
Result<std::filesystem::path> write_what_if(const WhatIfShown& shown, const std::filesystem::path& out);

}  // namespace aftercut::report

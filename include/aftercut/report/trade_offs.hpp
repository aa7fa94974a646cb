#pragma once
// Trade-offs: trade-offs.json, a table for the terminal, a page with pictures, and each plan's own folder.

#include <filesystem>
#include <string>
#include <vector>

#include "aftercut/audit/audit.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/trade_offs.hpp"

namespace aftercut::report {

struct TradeOffsShown {
  const farm::Problem* problem = nullptr;
  const plan::TradeOffs* trade_offs = nullptr;
  std::vector<audit::Audit> audits;  ///< [plan]
};

/// docs/schema/trade-offs.schema.json.
std::string trade_offs_json(const TradeOffsShown& shown);
/// A table that fits 100 columns.
std::string trade_offs_text(const TradeOffsShown& shown);
/// Self-contained, without scripts: cost against chance, CO2e and straw baled, and the table.
std::string trade_offs_html(const TradeOffsShown& shown);
/// trade-offs.json, trade-offs.html and a plan folder for each plan, into `out`.
Result<std::filesystem::path> write_trade_offs(const TradeOffsShown& shown, const std::filesystem::path& out);

}  // namespace aftercut::report

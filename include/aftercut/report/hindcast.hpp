#pragma once
// Chances said in past winters beside what then happened (docs/hindcast.md): a table for the terminal, JSON,
// and the files hindcast.csv and hindcast.svg.

#include <cstdint>
#include <filesystem>
#include <string>

#include "aftercut/core/result.hpp"
#include "aftercut/farm/problem.hpp"
#include "aftercut/plan/hindcast.hpp"

namespace aftercut::report {

struct HindcastShown {
  const farm::Problem* problem = nullptr;
  const plan::Hindcast* hindcast = nullptr;
  std::string version;
  std::uint64_t seed = 0;
  int evaluations = 0;
};

/// Tables that fit 100 columns, and what they mean in words.
std::string hindcast_text(const HindcastShown& shown);
/// docs/schema/hindcast.schema.json.
std::string hindcast_json(const HindcastShown& shown);
/// A row for each date, winter and field.
std::string hindcast_csv(const HindcastShown& shown);
/// What was said against what happened, a picture for each date; nothing hangs on colour.
std::string hindcast_svg(const HindcastShown& shown);

/// hindcast.csv and hindcast.svg in `out`, both or none.
Result<std::filesystem::path> write_hindcast(const HindcastShown& shown, const std::filesystem::path& out);

}  // namespace aftercut::report

#include "aftercut/readiness/readiness.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "aftercut/core/require.hpp"

namespace aftercut::readiness {
namespace {

constexpr int never = std::numeric_limits<int>::max();

/// The order statistic at ceil(p n) of sorted days.
std::optional<int> order_statistic(const std::vector<int>& sorted, double p) {
  const auto n = static_cast<double>(sorted.size());
  const auto at = static_cast<std::size_t>(std::max(1.0, std::ceil(p * n - 1e-9))) - 1;
  return sorted[at] == never ? std::nullopt : std::optional<int>{sorted[at]};
}

}  // namespace

FieldReadiness of_field(const farm::Field& field, const std::vector<plan::FieldRun>& runs) {
  require(!runs.empty(), "readiness needs at least one year");
  if (field.next.kind == farm::NextUseKind::fallow) return {.ready = {}, .chance = 1.0};
  std::vector<int> days;
  std::size_t in_time = 0;
  for (const plan::FieldRun& run : runs) {
    const bool before_cut_off = run.status == plan::Status::ready || run.status == plan::Status::late;
    days.push_back(before_cut_off ? run.ready_day : never);
    if (run.status == plan::Status::ready) ++in_time;
  }
  std::sort(days.begin(), days.end());
  return {.ready = {order_statistic(days, 0.1), order_statistic(days, 0.5), order_statistic(days, 0.9)},
          .chance = static_cast<double>(in_time) / static_cast<double>(runs.size())};
}

}  // namespace aftercut::readiness

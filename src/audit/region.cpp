#include "aftercut/audit/region.hpp"

#include <fmt/format.h>

#include <cmath>

#include "findings.hpp"

namespace aftercut::audit {
namespace {

constexpr double limit_tolerance = 1e-6;  // of a limit, for sums of many shares

Texts numbers(double found, double most) {
  return {fmt::format("{:.6f}", found), fmt::format("at most {:.6f}", most)};
}

/// Together the shares are within the limit, and each farm within its share.
Findings check_shares(const plan::Region& region, std::size_t kind) {
  Findings f;
  if (!region.limits[kind]) return f;
  const double limit = *region.limits[kind], slack = limit_tolerance * std::max(limit, 1.0);
  const char* words = plan::shared_words[kind].words;
  double sum = 0.0;
  for (const plan::RegionFarm& farm : region.farms) {
    sum += farm.share[kind];
    f.expect(farm.used[kind] <= farm.share[kind] + slack, "share overdrawn",
             {.what = farm.folder + ", " + words},
             [&] { return numbers(farm.used[kind], farm.share[kind]); });
  }
  f.expect(!region.fits || sum <= limit + slack, "shares beyond the limit", {.what = words},
           [&] { return numbers(sum, limit); });
  return f;
}

Findings check_farm(const plan::RegionFarm& farm) {
  Findings f;
  std::int64_t cents = 0;
  double area_ha = 0.0;
  for (const plan::RegionField& field : farm.fields) {
    cents += field.cost_cents;
    area_ha += field.area_ha;
    f.expect(field.chance >= 0.0 && field.chance <= 1.0, "wrong chance",
             {.what = farm.folder + ", " + field.id}, [&] {
               return Texts{fmt::format("{}", field.chance), "0 to 1"};
             });
  }
  const auto n = static_cast<double>(farm.fields.size());
  f.expect_near(static_cast<double>(farm.cost_cents), static_cast<double>(cents), 0.5 * n + 1.0, "wrong sum",
                {.what = farm.folder + ", money of its fields, cents"});
  f.expect_near(farm.area_ha, area_ha, 1e-6, "wrong sum", {.what = farm.folder + ", area"});
  f.expect(farm.bound_cents <= farm.cost_cents, "bound above the plan", {.what = farm.folder}, [&] {
    return Texts{fmt::format("{:.2f}", static_cast<double>(farm.bound_cents) / 100.0),
                 fmt::format("at most {:.2f}", static_cast<double>(farm.cost_cents) / 100.0)};
  });
  return f;
}

}  // namespace

Audit check_region(const plan::Region& region) {
  Findings f;
  for (std::size_t kind = 0; kind < plan::shared_kinds; ++kind) f += check_shares(region, kind);
  for (const plan::RegionFarm& farm : region.farms) f += check_farm(farm);
  return f.audit;
}

}  // namespace aftercut::audit

#include "aftercut/farm/field_fit.hpp"

#include <map>
#include <thread>
#include <tuple>

#include "aftercut/core/parallel.hpp"
#include "aftercut/farm/farm.hpp"
#include "aftercut/machinery/field_time.hpp"

namespace aftercut::farm {
namespace {

/// What the hours of an outline hang on.
using Manner = std::tuple<double, double, int, double, machinery::Turn>;

Manner manner_of(const machinery::Implement& i) {
  return {i.width.value(), i.speed.value(), i.headland_rounds, i.turning_radius.value(), i.turns};
}

bool laid_by_outline(const machinery::Implement& i) {
  return !i.efficiency_entered && machinery::row_of(i.kind) != nullptr &&
         machinery::row_of(i.kind)->drives_passes;
}

std::vector<FieldFit> fit_field(const Farm& farm, const Field& field) {
  const std::vector<geo::Path> levees = farm.levees_part ? field.levees : std::vector<geo::Path>{};
  std::map<Manner, double> known;
  std::vector<FieldFit> fits;
  for (const machinery::Implement& i : farm.implements) {
    FieldFit fit{i.field_efficiency, false};
    if (!field.invented_shape && laid_by_outline(i)) {
      const auto [at, fresh] = known.try_emplace(manner_of(i), 0.0);
      if (fresh)
        at->second = machinery::time_on_field(field.shape, levees, swath_machine(i)).field_efficiency;
      fit = {Fraction{at->second * (1.0 - i.stops.value())}, true};
    }
    fits.push_back(fit);
  }
  return fits;
}

}  // namespace

machinery::SwathMachine swath_machine(const machinery::Implement& implement) {
  machinery::SwathMachine m{.width = implement.width,
                            .speed = implement.speed,
                            .headland_rounds = implement.headland_rounds,
                            .turning = {}};
  m.turning.radius = implement.turning_radius;
  m.turning.manner = implement.turns;
  return m;
}

std::vector<std::vector<FieldFit>> fit_implements(const Farm& farm) {
  std::vector<std::vector<FieldFit>> fits(farm.fields.size());
  const int threads = static_cast<int>(std::thread::hardware_concurrency());
  for_each_index(fits.size(), threads, [&](std::size_t f) { fits[f] = fit_field(farm, farm.fields[f]); });
  return fits;
}

Fraction efficiency_on(const Farm& farm, std::size_t field, std::size_t implement) {
  return farm.fits.empty() ? farm.implements[implement].field_efficiency
                           : farm.fits[field][implement].efficiency;
}

double hours_over_typical(const Farm& farm, std::size_t field) {
  if (farm.fits.empty()) return 1.0;
  double sum = 0.0;
  int laid = 0;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    const FieldFit& fit = farm.fits[field][i];
    if (!fit.by_outline || fit.efficiency.value() <= 0.0) continue;
    sum += farm.implements[i].field_efficiency / fit.efficiency;
    ++laid;
  }
  return laid == 0 ? 1.0 : sum / laid;
}

}  // namespace aftercut::farm

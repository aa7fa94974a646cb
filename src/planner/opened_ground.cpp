#include "opened_ground.hpp"

#include <algorithm>
#include <limits>

#include "aftercut/dispatch/progress.hpp"

namespace aftercut::planner {
namespace {

constexpr double other_seedbed_mm = 6.0;  // drier or wetter, in histories between those that are lived
constexpr double not_lived = std::numeric_limits<double>::max();

bool closes(double ponded_mm) { return ponded_mm > season::flooded_above_mm && ponded_mm < not_lived; }

}  // namespace

bool could_be_too_dry(const season::FieldYear& sim) {
  return sim.ground_pull(0.0, -other_seedbed_mm).too_dry;
}

OpenedGround::OpenedGround(const dispatch::Table& t, std::size_t field)
    : book_{t.problem->farm.book},
      soil_{t.problem->farm.soils[t.problem->farm.fields[field].soil]},
      seeps_{!t.seeps_from[field].empty()},
      least_ponded_mm_(static_cast<std::size_t>(t.problem->farm.season.days), not_lived) {}

void OpenedGround::evening(std::size_t day, double ponded_mm) {
  least_ponded_mm_[day] = std::min(least_ponded_mm_[day], ponded_mm);
}

void OpenedGround::begin(const std::vector<Opening>& passes) {
  share_ = 0.0;
  ends_.clear();
  for (const Opening& pass : passes) worked(pass);
}

void OpenedGround::worked(const Opening& pass) {
  const auto& opened = book_.operations[static_cast<std::size_t>(pass.operation)].effect.opened;
  if (!opened) return;
  share_ = *opened;
  ends_ = pass.days;
}

double OpenedGround::most_opened(const season::FieldYear& sim) const {
  const double as_lived = sim.life().opened;
  const auto after = std::ranges::lower_bound(ends_, sim.day());
  if (after == ends_.begin() || share_ <= as_lived) return as_lived;
  const auto from = least_ponded_mm_.begin() + *std::prev(after);
  return std::any_of(from, least_ponded_mm_.begin() + sim.day(), closes) ? as_lived : share_;
}

double OpenedGround::least_pull(const method::Operation& op, const season::FieldYear& sim) const {
  if (!op.tillage || seeps_) return 1.0;
  const season::GroundPull pull = sim.ground_pull(most_opened(sim), other_seedbed_mm);
  return dispatch::draft_factor_of(soil_, op, {.too_dry = pull.too_dry, .draft_factor = pull.draft_factor});
}

}  // namespace aftercut::planner

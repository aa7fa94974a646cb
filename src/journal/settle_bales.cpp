// Bales counted and hauled: how much of a field their hauls come to.

#include <algorithm>

#include "settling.hpp"

namespace aftercut::journal {
namespace {

/// A field's baling so far: hectares, all of them once it is finished.
class BaledArea {
 public:
  BaledArea(const farm::Problem& problem, std::size_t field)
      : all_ha_{problem.farm.fields[field].area.value()} {
    for (const farm::Happened& h : problem.so_far.events) {
      const auto* w = std::get_if<farm::WorkDone>(&h.what);
      if (w == nullptr || w->field != field) continue;
      const auto& op = problem.farm.book.operations[static_cast<std::size_t>(w->operation)];
      if (op.effect.bale_share > 0.0) parts_.push_back({{h.day, h.seq}, w->finishes ? all_ha_ : w->area_ha});
    }
    std::ranges::sort(parts_, {}, &Part::when);
  }

  /// Where no baling was written down, or none of its areas, the count is taken to be of the whole field.
  [[nodiscard]] double ha_by(std::pair<Date, int> when) const {
    double ha = 0.0;
    for (const Part& part : parts_)
      if (part.when < when) ha += part.ha;
    return ha > 0.0 ? std::min(ha, all_ha_) : all_ha_;
  }

 private:
  struct Part {
    std::pair<Date, int> when;
    double ha;
  };
  double all_ha_;
  std::vector<Part> parts_;
};

}  // namespace

std::optional<int> only_one_of_kind(const farm::Farm& farm, const std::string& kind) {
  std::optional<int> found;
  for (std::size_t i = 0; i < farm.implements.size(); ++i) {
    if (kind.empty() || farm.implements[i].kind != kind) continue;
    if (found) return std::nullopt;
    found = static_cast<int>(i);
  }
  return found;
}

void Settling::haul_bales() {
  const auto& operations = problem_.farm.book.operations;
  const auto haul = std::ranges::find(operations, "bale_wagon", &method::Operation::implement);
  if (haul == operations.end()) return;
  for (std::size_t f = 0; f < bales_.size(); ++f)
    haul_bales_of(f, static_cast<int>(haul - operations.begin()));
}

/// Of what had been baled the share of all bales counted by then that has left. More than lay there is all
/// that lay there: what is beyond is kept beside it, and doubts_of() tells it.
void Settling::haul_bales_of(std::size_t f, int haul) {
  const auto when = [](const BalesSaid& s) { return std::pair{s.entry->done_on, s.entry->seq}; };
  std::ranges::sort(bales_[f], {}, when);
  const BaledArea baled{problem_, f};
  double counted = 0.0, hauled = 0.0, hauled_ha = 0.0;
  for (const BalesSaid& said : bales_[f]) {
    entry_ = said.entry;
    counted += said.counted;
    if (said.hauled <= 0.0) continue;
    const double lay = counted - hauled;
    if (lay <= 0.0) {
      say("hauled", fmt::format("{:g} bales", said.hauled), "bales that have been counted on the field",
          "record their count first: bales N counted");
      continue;
    }
    hauled += said.hauled;
    const double by_now_ha = std::min(hauled / counted, 1.0) * baled.ha_by(when(said));
    farm::WorkDone work{.field = f,
                        .operation = haul,
                        .area_ha = std::max(0.0, by_now_ha - hauled_ha),
                        .finishes = counted - hauled < 0.5};
    if (hauled > counted + 0.5) work.bales_beyond = hauled - counted;
    work.implement = only_one_of_kind(problem_.farm, "bale_wagon").value_or(farm::nobody);
    hauled_ha += work.area_ha;
    add(work);
  }
}

}  // namespace aftercut::journal

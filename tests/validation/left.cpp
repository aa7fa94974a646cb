#include "left.hpp"

#include <numeric>

namespace aftercut::validation {

const std::vector<Left>& left_by_winter() {
  static const std::vector<Left> all = [] {
    std::vector<Left> winters;
    for (const auto& year : davis()->winters.years) {
      Left left{.year = year.year};
      for (const Case& c : straw_cases()) {
        const farm::Farm farm = one_field(c.load_kg_per_ha, c.cut_height_cm, c.lay);
        const auto drivers = season::drivers_of(year, farm);
        const WinterRun run = live(farm, drivers, c, spring);
        left.kg_per_ha[c.name] = run.end.pools().total();
        left.share[c.name] = left.kg_per_ha[c.name] / c.load_kg_per_ha;
        if (run.end.straw_ledger().baled > 0.0)
          left.baled_share = run.end.straw_ledger().baled / c.load_kg_per_ha;
        const auto day = [&](MonthDay d) { return drivers.rain_mm.begin() + farm.season.day(d); };
        left.rain_mm = std::accumulate(day({10, 15}), day(spring), 0.0);
      }
      winters.push_back(left);
    }
    return winters;
  }();
  return all;
}

}  // namespace aftercut::validation

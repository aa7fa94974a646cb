#include "links.hpp"

#include <fmt/format.h>

#include <cmath>

#include "aftercut/core/numbers.hpp"

namespace aftercut::audit {
namespace {

constexpr double stands_mm = 20.0;  // Source: RulesOfWork (assumed)
constexpr double area_slack_ha = 1e-6;

std::vector<int> named(const farm::Farm& farm, int field, farm::LinkKind kind) {
  std::vector<int> others;
  for (const auto& link : farm.fields.at(static_cast<std::size_t>(field)).links)
    for (int o = 0; o < static_cast<int>(farm.fields.size()); ++o)
      if (link.kind == kind && farm.fields[static_cast<std::size_t>(o)].id == link.other) others.push_back(o);
  return others;
}

bool under_water(const std::vector<FieldReplay>& fields, int field) {
  const FieldReplay& f = fields.at(static_cast<std::size_t>(field));
  return f.living && f.begun && f.mask.ponded_mm >= stands_mm;
}

}  // namespace

bool fed(const farm::Farm& farm, const std::vector<FieldReplay>& fields, int field) {
  for (const int above : named(farm, field, farm::LinkKind::fills_from))
    if (!under_water(fields, above)) return false;
  return true;
}

double seeping_mm(const farm::Farm& farm, const std::vector<FieldReplay>& fields, int field) {
  if (!farm.supply || !fields.at(static_cast<std::size_t>(field)).begun) return 0.0;
  for (const int beside : named(farm, field, farm::LinkKind::seeps_from))
    if (under_water(fields, beside)) return farm.supply->seepage_mm_per_day;
  return 0.0;
}

Findings check_drawdown(const farm::Farm& farm, const std::vector<FieldReplay>& fields,
                        const std::vector<plan::Work>& day, int year) {
  Findings f;
  double out_ha = 0.0;
  for (const plan::Work& w : day) {
    if (farm.book.operations[static_cast<std::size_t>(w.operation)].water != method::Water::boards_out)
      continue;
    const Place place{&farm, year, w.day, w.field, "boards out"};
    for (const int below : named(farm, w.field, farm::LinkKind::drains_to)) {
      const FieldReplay& lower = fields.at(static_cast<std::size_t>(below));
      f.expect(!(lower.living && lower.life.boards_are_in()), "drained onto a field with boards in", place,
               [&] {
                 return Texts{"boards in on " + farm.fields[static_cast<std::size_t>(below)].id.value,
                              "its boards out"};
               });
    }
    const auto& most = farm.supply ? farm.supply->drawdown_ha_per_day : std::nullopt;
    f.expect(
        !most || out_ha <= 0.0 || out_ha + w.area_ha <= *most + area_slack_ha, "drains over their limit",
        place, [&] {
          return Texts{fmt::format("{:.2f} ha", out_ha + w.area_ha), fmt::format("at most {:.2f} ha", *most)};
        });
    out_ha += w.area_ha;
  }
  return f;
}

FieldReplay after_round(const farm::Farm& farm, int field, FieldReplay f, double rain_mm) {
  if (!farm.supply || !f.boards_this_morning || !(rain_mm > farm.supply->storm_rain_mm)) return f;
  const farm::Operator* keeper = nullptr;
  for (const bool paid : {true, false})
    for (const auto& o : farm.operators)
      if (o.paid == paid &&
          (keeper == nullptr || (keeper->paid == paid && o.wage_per_h < keeper->wage_per_h)))
        keeper = &o;
  if (keeper == nullptr) return f;
  const double area = farm.fields.at(static_cast<std::size_t>(field)).area.value();
  const double minutes = std::ceil(area * farm.supply->labour_min_per_ha_storm - 1e-9);
  const std::int64_t cents = to_cents(keeper->wage_per_h.value() * minutes / 60.0);
  f.run.labour_min += static_cast<std::int64_t>(minutes);
  (keeper->paid ? f.run.cost.wages : f.run.cost.own_labour) += cents;
  return f;
}

}  // namespace aftercut::audit

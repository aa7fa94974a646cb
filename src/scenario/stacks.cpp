#include "aftercut/scenario/stacks.hpp"
#include "aftercut/farm/place_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "aftercut/core/customary.hpp"
#include "aftercut/farm/power.hpp"
#include "aftercut/geo/shape.hpp"
#include "aftercut/machinery/bales.hpp"
#include "aftercut/scenario/bales.hpp"

namespace aftercut::scenario {
namespace {

constexpr double warm_from_percent = 14.0, not_stacked_from_percent = 17.0;  // Source: CDQA2020 (read)
constexpr double square_metres_per_ha = 1e4, cubic_feet_per_m3 = 35.3146667;

std::string length_words(const farm::Farm& farm, Metre x) {
  return farm.units == farm::UnitSystem::us ? fmt::format("{:.0f} ft", x.value() / m_per_ft)
                                            : fmt::format("{:.1f} m", x.value());
}

std::string volume_words(const farm::Farm& farm, double m3) {
  return farm.units == farm::UnitSystem::us ? fmt::format("{:.0f} ft3", m3 * cubic_feet_per_m3)
                                            : fmt::format("{:.0f} m3", m3);
}

/// As entered; else by the ground and the height allowed; a point without a number takes any.
std::optional<int> room_of(const farm::Farm& farm, const farm::StackPlace& place) {
  if (place.most_bales) return place.most_bales;
  if (place.shape.polygons.empty()) return std::nullopt;
  const machinery::BaleSettings& b = farm.bales;
  const double ground = geo::geodesic_area(place.shape).value() * square_metres_per_ha;
  const double on_ground = std::floor(ground / (b.length.value() * b.width.value()));
  const double high = std::floor(farm.stacking.rules.most_height / b.height + 1e-9);
  return static_cast<int>(on_ground * high);
}

double loss_of(const farm::StackRules& r, farm::StackCover cover) {
  if (cover == farm::StackCover::none) return r.loss_uncovered;
  return cover == farm::StackCover::half_open ? r.loss_half_open : r.loss_closed;
}

struct Gap {
  Metre least;
  const char* source;
};
std::optional<Gap> gap_to(const farm::StackRules& r, farm::PlaceKind kind) {
  switch (kind) {
    case farm::PlaceKind::home:
    case farm::PlaceKind::school:
      return Gap{r.from_home, "from_home"};
    case farm::PlaceKind::road:
      return Gap{r.from_road, "from_road"};
    case farm::PlaceKind::power_line:
      return Gap{r.from_power_line, "from_power_line"};
    case farm::PlaceKind::canal:
    case farm::PlaceKind::trees:
    case farm::PlaceKind::other:
      return std::nullopt;
  }
  return std::nullopt;
}

/// "road", "road South" or, where the name says it all, "Power line".
std::string named(const farm::Place& p) {
  const std::string kind = farm::words_of(p.kind);
  std::string lower = p.name;
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  if (lower.find(kind) != std::string::npos) return p.name;
  return p.name.empty() ? kind : kind + " " + p.name;
}

void add_near(std::vector<std::string>& troubles, const farm::Farm& farm, std::size_t s) {
  const auto& places = farm.stacking.places;
  const auto too_near = [&](const geo::Shape& other, const std::string& what, Gap gap) {
    const Metre d = geo::distance(places[s].shape, other);
    if (d < gap.least)
      troubles.push_back(fmt::format("{} from {}: {} is kept ({})", length_words(farm, d), what,
                                     length_words(farm, gap.least), gap.source));
  };
  for (std::size_t k = 0; k < places.size(); ++k)
    if (k != s)
      too_near(places[k].shape, "stack " + places[k].id, {farm.stacking.rules.from_stack, "from_stack"});
  for (const farm::Place& p : farm.places)
    if (const auto gap = gap_to(farm.stacking.rules, p.kind)) too_near(p.shape, named(p), *gap);
}

void add_size(std::vector<std::string>& troubles, const farm::Farm& farm, const plan::StackUse& use) {
  const farm::StackRules& r = farm.stacking.rules;
  if (use.volume_m3 > r.most_block_m3)
    troubles.push_back(fmt::format("{} bales are {}, more than one block of {}: lanes split it into {}",
                                   use.bales, volume_words(farm, use.volume_m3),
                                   volume_words(farm, r.most_block_m3),
                                   std::ceil(use.volume_m3 / r.most_block_m3)));
}

std::vector<plan::Caution> stack_cautions() {
  return {
      {"moisture",
       "Large bales above 14 % moisture heat, and above 17 % are not stacked; leave out wet slugs from "
       "wheel tracks.",
       "CDQA2020 (read), ANR8425 (read)",
       {}},
      {"temperature",
       "Probe for at least six weeks. From 54 °C (130 °F) look often, from 66 °C (150 °F) twice a day, from "
       "71 °C (160 °F) call the fire service before the stack is opened; above 80 °C (175 °F) nobody moves "
       "bales without it.",
       "CDQA2020 (read), StackLadder (read second-hand)",
       {}},
      {"place",
       "Keep stacks apart from each other, buildings, roads and lines, and out of line with the usual "
       "wind; the local fire code and the insurer say how far.",
       "UKfire (read), StackInsurer (read)",
       {}},
      {"height",
       "Tie the layers in; keep people away from the face of a stack and off its top.",
       "StackHeight (read second-hand)",
       {}},
      {"loss",
       "A year without cover takes 40 to 60 % of the dry matter, under a half-open roof 10 to 20 %; one "
       "storm on a stack that lost its sheet does harm already.",
       "Blunk2003 (read)",
       {}}};
}

std::vector<std::vector<double>> metres_of(const std::vector<std::vector<farm::StackWay>>& ways) {
  std::vector<std::vector<double>> metres;
  for (const auto& row : ways) {
    auto& out = metres.emplace_back();
    for (const farm::StackWay& way : row) out.push_back(way.metres);
  }
  return metres;
}

}  // namespace

std::vector<plan::Spread> bales_if_all_baled(const farm::Farm& farm) {
  double windrow = 0.0, spread = 0.0;
  for (const auto& op : farm.book.operations)
    if (op.effect.bale_share > windrow) {
      windrow = op.effect.bale_share;
      spread = op.effect.bale_share_spread.value_or(windrow);
    }
  std::vector<plan::Spread> out;
  for (const farm::Field& field : farm.fields) {
    const double share = field.lay == straw::Lay::windrow || !field.cut ? windrow : spread;
    const Kilogram as_baled{farm::loose_straw_of(field).value() * share * field.area.value() /
                            machinery::bale_dry_share};
    const double n =
        field.cut && field.lay == straw::Lay::chopped ? 0.0 : machinery::bales_of(as_baled, farm.bales);
    out.push_back({n, n, n});
  }
  return out;
}

std::vector<plan::Spread> bales_of_plan(const farm::Farm& farm, const plan::PlannedYears& planned) {
  std::vector<plan::Spread> out;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    std::vector<plan::FieldRun> shown;
    for (const plan::YearRun& run : planned.runs)
      if (std::count(planned.plan.shown_years.begin(), planned.plan.shown_years.end(), run.year) > 0)
        shown.push_back(run.fields.at(f));
    out.push_back(count_bales(farm, farm.fields[f], shown).bales);
  }
  return out;
}

std::vector<std::vector<farm::StackWay>> ways_to_stacks(const farm::Farm& farm) {
  std::vector<geo::Shape> fields, places;
  for (const farm::Field& field : farm.fields) fields.push_back(field.shape);
  for (const farm::StackPlace& place : farm.stacking.places) places.push_back(place.shape);
  return farm::stack_ways(fields, places, farm.roads ? &*farm.roads : nullptr, farm.stacking.rules.detour);
}

plan::StackPlan plan_stacks(const farm::Farm& farm, std::vector<plan::Spread> bales, bool all_baled) {
  plan::StackPlan out{.all_baled = all_baled, .bales = std::move(bales), .cautions = stack_cautions()};
  out.ways = ways_to_stacks(farm);
  std::vector<int> most;
  for (const auto& b : out.bales) most.push_back(static_cast<int>(std::ceil(b.p90)));
  std::vector<std::optional<int>> room;
  for (const auto& place : farm.stacking.places) room.push_back(room_of(farm, place));
  const machinery::Hauls shared = machinery::share_out(most, room, metres_of(out.ways));
  out.without_room = shared.without_room;
  for (std::size_t s = 0; s < farm.stacking.places.size(); ++s) {
    plan::StackUse use{.place = s, .room = room[s]};
    for (const auto& h : shared.hauls) {
      if (h.stack != s) continue;
      use.hauls.push_back(h);
      use.bales += h.bales;
      use.usual_bales += h.bales * out.bales[h.field].p50 / most[h.field];
    }
    use.volume_m3 = use.bales * machinery::bale_volume_m3(farm.bales);
    use.loss_share = loss_of(farm.stacking.rules, farm.stacking.places[s].cover);
    add_near(use.troubles, farm, s);
    add_size(use.troubles, farm, use);
    out.stacks.push_back(std::move(use));
  }
  if (farm.bale_moisture_percent > warm_from_percent)
    out.troubles.push_back(
        fmt::format("straw is baled at up to {:.0f} % moisture: large bales heat above {:.0f} %{}",
                    farm.bale_moisture_percent, warm_from_percent,
                    farm.bale_moisture_percent > not_stacked_from_percent
                        ? fmt::format(" and above {:.0f} % are not stacked", not_stacked_from_percent)
                        : ""));
  return out;
}

}  // namespace aftercut::scenario

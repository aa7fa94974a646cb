#include "aftercut/report/stacks.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/customary.hpp"
#include "aftercut/geo/layer.hpp"
#include "aftercut/machinery/bales.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr double cubic_feet_per_m3 = 35.3146667;

std::string stack_row(const std::array<std::string, 8>& c) {
  return fmt::format("{} {} {} {} {} {} {} {}\n", fit(c[0], 16), fit(c[1], 7, true), fit(c[2], 7, true),
                     fit(c[3], 7, true), fit(c[4], 6, true), fit(c[5], 8, true), fit(c[6], 7, true), c[7]);
}

bool in_us(const farm::Farm& farm) { return farm.units == farm::UnitSystem::us; }

std::string rain_words(const farm::Farm& farm, double mm) {
  return in_us(farm) ? fmt::format("{:.1f} in of rain", mm / 25.4) : fmt::format("{:g} mm of rain", mm);
}

std::string way_words(const farm::Farm& farm, double metres) {
  return in_us(farm) ? fmt::format("{:.1f} mi", metres / 1000.0 / km_per_mile)
                     : fmt::format("{:.1f} km", metres / 1000.0);
}

const char* words_of(farm::WayKind kind) {
  switch (kind) {
    case farm::WayKind::straight:
      return "straight";
    case farm::WayKind::beside:
      return "beside the field";
    case farm::WayKind::hard_road:
      return "road";
    case farm::WayKind::soft_road:
      return "soft road";
  }
  fail("every kind of way has its words");
}

farm::WayKind kind_of(const plan::StackPlan& plan, const machinery::Haul& h) {
  return plan.ways.at(h.field).at(h.stack).kind;
}

/// What stands beside a way that is not by a road for any weather.
std::string way_mark(const farm::Farm& farm, farm::WayKind kind) {
  const bool plain = !farm.roads || kind == farm::WayKind::hard_road || kind == farm::WayKind::beside;
  return plain ? "" : fmt::format(", {}", words_of(kind));
}

/// By which ways the bales go, as far as any does.
std::string ways_line(const farm::Farm& farm, const plan::StackPlan& plan) {
  bool soft = false, straight = false, any = false;
  for (const auto& use : plan.stacks)
    for (const auto& h : use.hauls) {
      any = true;
      soft = soft || kind_of(plan, h) == farm::WayKind::soft_road;
      straight = straight || kind_of(plan, h) == farm::WayKind::straight;
    }
  if (!any) return "";
  std::string text;
  if (!farm.roads)
    text = fmt::format(
        "Ways: straight distance from the middle of the field times {:g}; no roads are "
        "counted.",
        farm.stacking.rules.detour);
  else
    text = "Ways: from the middle of the field by the farm's roads.";
  if (soft)
    text += fmt::format(
        " \"soft road\": no other way; no loaded wagon for {} days after a day with more than {}.",
        farm.travel.soft_days, rain_words(farm, farm.travel.soft_rain_mm));
  if (straight && farm.roads)
    text += fmt::format(" \"straight\": no road leads there; straight distance times {:g}.",
                        farm.stacking.rules.detour);
  return wrapped(text, terminal_width, 2) + "\n";
}

double mass_shown(const farm::Farm& farm, double bales) {
  return bales * farm.bales.mass.value() / (in_us(farm) ? kg_per_short_ton : 1000.0);
}

std::string stack_block(const farm::Farm& farm, const plan::StackPlan& plan, const plan::StackUse& use) {
  const farm::StackPlace& place = farm.stacking.places.at(use.place);
  std::string from;
  for (const auto& h : use.hauls)
    from += fmt::format("{}{} ({}, {}{})", from.empty() ? "" : ", ", farm.fields.at(h.field).id.value,
                        h.bales, way_words(farm, h.metres), way_mark(farm, kind_of(plan, h)));
  const int usual = static_cast<int>(std::ceil(use.usual_bales - 1e-9));
  const auto loads = machinery::loads_of(usual, farm.bales);
  std::string out =
      stack_row({place.id, fmt::format("{}", usual), fmt::format("{}", use.bales),
                 use.room ? fmt::format("{}", *use.room) : "any", fmt::format("{}", loads.loads),
                 fmt::format("{:.0f}", in_us(farm) ? use.volume_m3 * cubic_feet_per_m3 : use.volume_m3),
                 fmt::format("{:.0f}", mass_shown(farm, use.usual_bales)),
                 use.loss_share > 0.0 ? fmt::format("{:.0f} % ({:.0f})", 100.0 * use.loss_share,
                                                    mass_shown(farm, use.usual_bales) * use.loss_share)
                                      : "-"});
  if (!from.empty()) out += "    " + wrapped("from " + from, terminal_width - 4, 6) + "\n";
  for (const auto& t : use.troubles) out += "  " + wrapped("! " + t, terminal_width - 2, 4) + "\n";
  return out;
}

std::string bale_line(const farm::Farm& farm, const plan::StackPlan& plan) {
  const machinery::BaleSettings& b = farm.bales;
  double p50 = 0.0, p90 = 0.0;
  for (const auto& s : plan.bales) p50 += s.p50, p90 += s.p90;
  const bool us = in_us(farm);
  const double length = us ? m_per_ft : 1.0;
  return wrapped(
             fmt::format(
                 "{}: about {:.0f} bales{}. A bale is {:.1f} x {:.1f} x {:.1f} {} and {:.0f} {} ({:.0f} "
                 "kg/m3), {} on a load.",
                 plan.all_baled ? "If all straw were baled" : "By the plan", p50,
                 plan.all_baled ? "" : fmt::format(" in the middle year, fields' p90 added up {:.0f}", p90),
                 b.length.value() / length, b.width.value() / length, b.height.value() / length,
                 us ? "ft" : "m", us ? b.mass.value() / kg_per_lb : b.mass.value(), us ? "lb" : "kg",
                 machinery::bale_density_kg_m3(b), b.per_load),
             terminal_width, 2) +
         "\n";
}

std::string left_over(const farm::Farm& farm, const plan::StackPlan& plan) {
  std::string fields;
  int bales = 0;
  for (std::size_t f = 0; f < plan.without_room.size(); ++f) {
    if (plan.without_room[f] <= 0) continue;
    bales += plan.without_room[f];
    fields += fmt::format("{}{} ({})", fields.empty() ? "" : ", ", farm.fields.at(f).id.value,
                          plan.without_room[f]);
  }
  if (bales == 0) return "";
  const char* what =
      farm.stacking.places.empty() ? "no stack place is entered (stacks in farm.json)" : "no room is left";
  return "  " + wrapped(fmt::format("! {} for {} bales: {}", what, bales, fields), terminal_width - 2, 4) +
         "\n";
}

}  // namespace

std::string stacks_text(const farm::Farm& farm, const plan::StackPlan& plan) {
  const bool us = in_us(farm);
  std::string out = bale_line(farm, plan);
  if (!plan.stacks.empty())
    out += stack_row({"Stack", "bales", "p90", "room", "loads", us ? "ft3" : "m3", us ? "ton" : "t",
                      "lost in a year"}) +
           std::string(terminal_width, '-') + "\n";
  for (const auto& use : plan.stacks) out += stack_block(farm, plan, use);
  out += ways_line(farm, plan);
  out += left_over(farm, plan);
  for (const auto& t : plan.troubles) out += "  " + wrapped("! " + t, terminal_width - 2, 4) + "\n";
  for (const auto& c : plan.cautions)
    out +=
        "  " + wrapped(fmt::format("{}: {} [{}]", c.about, c.text, c.source), terminal_width - 2, 4) + "\n";
  return out;
}

Result<std::filesystem::path> write_stacks(const farm::Farm& farm, const plan::StackPlan& plan,
                                           const std::filesystem::path& file) {
  geo::LayerToWrite layer{"stacks",
                          {{"kind", 't'},
                           {"stack", 't'},
                           {"field", 't'},
                           {"bales", 'i'},
                           {"volume_m3", 'd'},
                           {"way_m", 'd'},
                           {"way", 't'},
                           {"trouble", 't'}},
                          {}};
  for (const auto& use : plan.stacks) {
    const farm::StackPlace& place = farm.stacking.places.at(use.place);
    geo::Feature stack;
    stack.shape = place.shape;
    stack.values = {{"kind", "stack"},
                    {"stack", place.id},
                    {"bales", fmt::format("{}", use.bales)},
                    {"volume_m3", fmt::format("{:.1f}", use.volume_m3)}};
    for (const auto& t : use.troubles)
      stack.values["trouble"] += (stack.values["trouble"].empty() ? "" : "; ") + t;
    if (stack.values["trouble"].empty()) stack.values.erase("trouble");
    layer.features.push_back(stack);
    const geo::Point at =
        place.shape.polygons.empty() ? place.shape.points.front() : geo::label_point(place.shape);
    for (const auto& h : use.hauls) {
      geo::Feature way;
      way.shape.lines = {{geo::label_point(farm.fields.at(h.field).shape), at}};
      way.values = {{"kind", "way"},
                    {"stack", place.id},
                    {"field", farm.fields.at(h.field).id.value},
                    {"bales", fmt::format("{}", h.bales)},
                    {"way_m", fmt::format("{:.0f}", h.metres)},
                    {"way", words_of(kind_of(plan, h))}};
      layer.features.push_back(way);
    }
  }
  return geo::write_geojson(file, layer);
}

}  // namespace aftercut::report

#include "aftercut/report/passes.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/core/parallel.hpp"
#include "aftercut/geo/layer.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr std::size_t shapes_named = 3;
constexpr double metres_per_foot = 0.3048, km_per_mile = 1.609344;  // by definition

std::string passes_row(const std::array<std::string, 10>& c) {
  return fmt::format("{} {} {} {} {} {} {} {} {} {}\n", fit(c[0], 23), fit(c[1], 8, true), fit(c[2], 8, true),
                     fit(c[3], 7, true), fit(c[4], 7, true), fit(c[5], 8, true), fit(c[6], 8, true),
                     fit(c[7], 9, true), fit(c[8], 7, true), fit(c[9], 6, true));
}

double typical_hours(const farm::Field& field, const machinery::Implement& implement) {
  return field.area.value() /
         machinery::field_capacity(implement.speed, implement.width, implement.field_efficiency).value();
}

std::string percent(double share) { return fmt::format("{:.0f} %", 100.0 * share); }

std::string name_of(const farm::Field& field) {
  return field.id.value + (field.name == field.id.value ? "" : " " + field.name) +
         (field.invented_shape ? " *" : "");
}

/// The heading on which most of the field is worked.
double main_heading(const machinery::FieldTime& time) {
  const auto most =
      std::max_element(time.pieces.begin(), time.pieces.end(),
                       [](const auto& a, const auto& b) { return a.time.area_m2 < b.time.area_m2; });
  return most->time.heading_deg;
}

std::string field_line(const farm::Farm& farm, const MachinePasses& all, const FieldPasses& p) {
  const farm::Field& field = farm.fields.at(p.field);
  const Units& u = units_of(farm);
  return passes_row(
      {name_of(field), fmt::format("{:.1f}", field.area.value() * u.area_per_ha),
       fmt::format("{} deg", std::lround(main_heading(p.time)) % 180), fmt::format("{}", p.time.passes),
       fmt::format("{}", p.time.checks), fmt::format("{:.2f}", p.hours.value()),
       fmt::format("{:.2f}", typical_hours(field, farm.implements.at(all.implement))), percent(p.efficiency),
       percent(p.coverage.worked_share()), percent(p.coverage.overlap_share())});
}

geo::Coverage operator+(const geo::Coverage& a, const geo::Coverage& b) {
  return {a.field_m2 + b.field_m2, a.worked_m2 + b.worked_m2, a.twice_m2 + b.twice_m2};
}

FieldPasses lay_field(const farm::Farm& farm, std::size_t f, const machinery::Implement& implement,
                      const machinery::SwathMachine& machine) {
  const farm::Field& field = farm.fields[f];
  FieldPasses p{.field = f,
                .time = machinery::time_on_field(
                    field.shape, farm.levees_part ? field.levees : std::vector<geo::Path>{}, machine)};
  const double at_work = 1.0 - implement.stops.value();
  p.hours = p.time.hours / at_work;
  p.efficiency = p.time.field_efficiency * at_work;
  for (const machinery::FieldPiece& piece : p.time.pieces) {
    const geo::SwathGround ground{piece.outline, machine.width.value(), machine.headland_rounds};
    p.lines.push_back(ground.lay(piece.time.heading_deg));
    p.coverage = p.coverage + ground.coverage(p.lines.back());
  }
  return p;
}

std::vector<FieldPasses> worst_first(std::vector<FieldPasses> fields) {
  std::stable_sort(fields.begin(), fields.end(),
                   [](const FieldPasses& a, const FieldPasses& b) { return a.efficiency < b.efficiency; });
  return fields;
}

std::string closing(const farm::Farm& farm, const MachinePasses& all,
                    const std::vector<FieldPasses>& sorted) {
  const machinery::Implement& implement = farm.implements.at(all.implement);
  double by_outline = 0.0, typical = 0.0;
  for (const FieldPasses& p : sorted) {
    by_outline += p.hours.value();
    typical += typical_hours(farm.fields.at(p.field), implement);
  }
  std::string names;
  for (std::size_t k = 0; k < std::min(shapes_named, sorted.size()); ++k)
    names += (names.empty() ? "" : ", ") + farm.fields.at(sorted[k].field).id.value;
  std::string text = fmt::format(
      "All fields once: {:.1f} h by their outlines and levees, {:.1f} h at the typical field efficiency of "
      "{}. Both "
      "count stops, here {} of the hours. Shapes that lose most: {}.",
      by_outline, typical, percent(implement.field_efficiency.value()), percent(implement.stops.value()),
      names);
  if (implement.entered_ha_per_day) text += " The plan goes by the entered area a day instead.";
  if (implement.efficiency_entered) text += " The plan goes by the entered field efficiency instead.";
  const bool invented = std::any_of(sorted.begin(), sorted.end(), [&](const FieldPasses& p) {
    return farm.fields.at(p.field).invented_shape;
  });
  if (invented) text += " * a rectangle of the field's area: no outline was given.";
  return wrapped(text, terminal_width, 0) + "\n";
}

/// What a line is of.
struct Of {
  std::string field;
  std::size_t piece = 0;
  int block = 0;
};

geo::Feature line(const Of& of, const char* kind, const geo::Path& path, double length_m) {
  geo::Feature out;
  out.shape.lines = {path};
  out.values["field"] = of.field;
  out.values["kind"] = kind;
  out.values["piece"] = std::to_string(of.piece + 1);
  out.values["block"] = std::to_string(of.block);
  if (length_m > 0.0) out.values["length_m"] = fmt::format("{:.1f}", length_m);
  return out;
}

}  // namespace

MachinePasses lay_passes(const farm::Farm& farm, std::size_t implement,
                         const machinery::SwathMachine& machine, int threads) {
  MachinePasses out{implement, machine, std::vector<FieldPasses>(farm.fields.size())};
  for_each_index(farm.fields.size(), threads, [&](std::size_t f) {
    out.fields[f] = lay_field(farm, f, farm.implements.at(implement), machine);
  });
  return out;
}

std::string passes_text(const farm::Farm& farm, const MachinePasses& passes) {
  const machinery::Implement& implement = farm.implements.at(passes.implement);
  const Units& u = units_of(farm);
  const bool us = std::string{u.area} == "ac";
  const double length = us ? 1.0 / metres_per_foot : 1.0, speed = us ? 1.0 / km_per_mile : 1.0;
  const char *length_unit = us ? "ft" : "m", *speed_unit = us ? "mph" : "km/h";
  std::string out = wrapped(fmt::format("{}: {:.1f} {} wide, {:.1f} {} at work, {:.1f} {} in turns of {:.1f} "
                                        "{} radius, {} rounds along the edge, "
                                        "then straight passes on the heading of the least hours",
                                        implement.name, passes.machine.width.value() * length, length_unit,
                                        passes.machine.speed.value() * speed, speed_unit,
                                        passes.machine.turning.speed.value() * speed, speed_unit,
                                        passes.machine.turning.radius.value() * length, length_unit,
                                        passes.machine.headland_rounds),
                            terminal_width, 2);
  out += "\n" +
         passes_row({"Field", u.area, "heading", "passes", "checks", "hours", "typical", "efficient",
                     "worked", "twice"}) +
         std::string(terminal_width, '-') + "\n";
  const auto sorted = worst_first(passes.fields);
  for (const FieldPasses& p : sorted) out += field_line(farm, passes, p);
  return out + closing(farm, passes, sorted);
}

Result<std::filesystem::path> write_passes(const farm::Farm& farm, const MachinePasses& passes,
                                           const std::filesystem::path& file) {
  geo::LayerToWrite layer{
      "passes", {{"field", 't'}, {"kind", 't'}, {"piece", 'i'}, {"block", 'i'}, {"length_m", 'd'}}, {}};
  for (const FieldPasses& p : passes.fields) {
    const std::string& id = farm.fields.at(p.field).id.value;
    for (std::size_t k = 0; k < p.lines.size(); ++k) {
      for (const geo::Path& round : p.lines[k].headland)
        layer.features.push_back(line({id, k, 0}, "round", round, 0.0));
      for (const geo::Pass& pass : p.lines[k].passes)
        layer.features.push_back(line({id, k, pass.block + 1}, "pass", {pass.from, pass.to}, pass.length_m));
    }
  }
  return geo::write_geojson(file, layer);
}

}  // namespace aftercut::report

#include "aftercut/report/passes.hpp"

#include <algorithm>
#include <cmath>

#include "aftercut/geo/layer.hpp"
#include "aftercut/machinery/capacity.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

constexpr std::size_t shapes_named = 3;
constexpr double metres_per_foot = 0.3048, km_per_mile = 1.609344;  // by definition

std::string table_row(const std::array<std::string, 10>& c) {
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

std::string field_line(const farm::Farm& farm, const MachinePasses& all, const FieldPasses& p) {
  const farm::Field& field = farm.fields.at(p.field);
  const Units& u = units_of(farm);
  return table_row({name_of(field), fmt::format("{:.1f}", field.area.value() * u.area_per_ha),
                    fmt::format("{} deg", std::lround(p.time.heading_deg) % 180),
                    fmt::format("{}", p.time.passes), fmt::format("{}", p.time.blocks),
                    fmt::format("{:.2f}", p.time.hours.value()),
                    fmt::format("{:.2f}", typical_hours(field, farm.implements.at(all.implement))),
                    percent(p.time.field_efficiency), percent(p.coverage.worked_share()),
                    percent(p.coverage.overlap_share())});
}

std::vector<FieldPasses> worst_first(std::vector<FieldPasses> fields) {
  std::stable_sort(fields.begin(), fields.end(), [](const FieldPasses& a, const FieldPasses& b) {
    return a.time.field_efficiency < b.time.field_efficiency;
  });
  return fields;
}

std::string closing(const farm::Farm& farm, const MachinePasses& all,
                    const std::vector<FieldPasses>& sorted) {
  const machinery::Implement& implement = farm.implements.at(all.implement);
  double by_outline = 0.0, typical = 0.0;
  for (const FieldPasses& p : sorted) {
    by_outline += p.time.hours.value();
    typical += typical_hours(farm.fields.at(p.field), implement);
  }
  std::string names;
  for (std::size_t k = 0; k < std::min(shapes_named, sorted.size()); ++k)
    names += (names.empty() ? "" : ", ") + farm.fields.at(sorted[k].field).id.value;
  std::string text = fmt::format(
      "All fields once: {:.1f} h by their outlines, {:.1f} h at the typical field efficiency of {}, which "
      "also "
      "counts stops. Shapes that lose most: {}.",
      by_outline, typical, percent(implement.field_efficiency.value()), names);
  const bool invented = std::any_of(sorted.begin(), sorted.end(), [&](const FieldPasses& p) {
    return farm.fields.at(p.field).invented_shape;
  });
  if (invented) text += " * a rectangle of the field's area: no outline was given.";
  return wrapped(text, terminal_width, 0) + "\n";
}

geo::Feature line(const std::string& field, const char* kind, int block, const geo::Path& path,
                  double length_m) {
  geo::Feature out;
  out.shape.lines = {path};
  out.values["field"] = field;
  out.values["kind"] = kind;
  out.values["block"] = std::to_string(block);
  if (length_m > 0.0) out.values["length_m"] = fmt::format("{:.1f}", length_m);
  return out;
}

}  // namespace

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
         table_row({"Field", u.area, "heading", "passes", "blocks", "hours", "typical", "efficient", "worked",
                    "twice"}) +
         std::string(terminal_width, '-') + "\n";
  const auto sorted = worst_first(passes.fields);
  for (const FieldPasses& p : sorted) out += field_line(farm, passes, p);
  return out + closing(farm, passes, sorted);
}

Result<std::filesystem::path> write_passes(const farm::Farm& farm, const MachinePasses& passes,
                                           const std::filesystem::path& file) {
  geo::LayerToWrite layer{"passes", {{"field", 't'}, {"kind", 't'}, {"block", 'i'}, {"length_m", 'd'}}, {}};
  for (const FieldPasses& p : passes.fields) {
    const std::string& id = farm.fields.at(p.field).id.value;
    for (const geo::Path& round : p.time.swaths.headland)
      layer.features.push_back(line(id, "round", 0, round, 0.0));
    for (const geo::Pass& pass : p.time.swaths.passes)
      layer.features.push_back(line(id, "pass", pass.block + 1, {pass.from, pass.to}, pass.length_m));
  }
  return geo::write_geojson(file, layer);
}

}  // namespace aftercut::report

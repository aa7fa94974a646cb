#include "aftercut/report/straw.hpp"

#include <algorithm>
#include <array>

#include "aftercut/core/customary.hpp"
#include "aftercut/core/numbers.hpp"
#include "aftercut/straw/load.hpp"
#include "straw_figures.hpp"

namespace aftercut::report {
namespace {

constexpr double kg_per_tonne = 1000.0;

std::string straw_row(const std::array<std::string, 10>& c) {
  return fmt::format("{} {} {} {} {} {} {} {} {} {}\n", fit(c[0], 20), fit(c[1], 7, true), fit(c[2], 8, true),
                     fit(c[3], 8, true), fit(c[4], 8, true), fit(c[5], 8, true), fit(c[6], 8, true),
                     fit(c[7], 8, true), fit(c[8], 8, true), c[9]);
}

double short_or_metric(const farm::Farm& farm) {
  return farm.units == farm::UnitSystem::us ? kg_per_short_ton : kg_per_tonne;
}

std::string straw_line(const farm::Farm& farm, std::size_t f) {
  const farm::Field& field = farm.fields.at(f);
  const Units& u = units_of(farm);
  const StrawFigures s = straw_figures(farm, f);
  const farm::YieldPattern* p = pattern_of(farm, f);
  const auto load = [&u](double kg_per_ha) { return with_thousands(kg_per_ha * u.mass_per_kg_ha); };
  return straw_row(
      {field.id.value + (field.name == field.id.value ? "" : " " + field.name),
       fmt::format("{:.1f}", field.area.value() * u.area_per_ha),
       field.grain ? load(field.grain->value()) : "-", load(s.load_kg_per_ha),
       p != nullptr ? load(p->p10_kg_per_ha) : "-", p != nullptr ? load(p->p90_kg_per_ha) : "-",
       load(s.standing_kg_per_ha), load(s.loose_kg_per_ha),
       p != nullptr ? fmt::format("{:.1f}", p->heavy_share * field.area.value() * u.area_per_ha) : "-",
       s.from});
}

std::vector<std::size_t> heaviest_first(const farm::Farm& farm) {
  std::vector<std::size_t> order = first_numbers(farm.fields.size());
  std::stable_sort(order.begin(), order.end(), [&farm](std::size_t a, std::size_t b) {
    return farm.fields[a].straw_load > farm.fields[b].straw_load;
  });
  return order;
}

std::string totals(const farm::Farm& farm) {
  const Units& u = units_of(farm);
  double mass = 0.0, standing = 0.0, heavy = 0.0, area = 0.0;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const StrawFigures s = straw_figures(farm, f);
    const double ha = farm.fields[f].area.value();
    area += ha;
    mass += ha * s.load_kg_per_ha;
    standing += ha * s.standing_kg_per_ha;
    if (const auto* p = pattern_of(farm, f)) heavy += p->heavy_share * ha;
  }
  const double unit = short_or_metric(farm);
  std::string text = fmt::format(
      "All fields: {} {} of dry straw on {:.0f} {}, {} {} of it standing stubble at the cutting heights.",
      with_thousands(mass / unit), farm.units == farm::UnitSystem::us ? "short tons" : "t",
      area * u.area_per_ha, u.area, with_thousands(standing / unit),
      farm.units == farm::UnitSystem::us ? "short tons" : "t");
  if (heavy > 0.0) text += fmt::format(" Heavy straw on {:.1f} {}.", heavy * u.area_per_ha, u.area);
  return wrapped(text, terminal_width, 0) + "\n";
}

}  // namespace

StrawFigures straw_figures(const farm::Farm& farm, std::size_t f) {
  const farm::Field& field = farm.fields.at(f);
  StrawFigures s;
  s.load_kg_per_ha = field.straw_load.value();
  s.standing_kg_per_ha = s.load_kg_per_ha * straw::stubble_share(field.cut_height_cm).value();
  s.loose_kg_per_ha = s.load_kg_per_ha - s.standing_kg_per_ha;
  const farm::YieldPattern* p = pattern_of(farm, f);
  s.from = field.load_given                ? "entered"
           : !field.pooled_ticket.empty()  ? "ticket"
           : p != nullptr && p->gives_mean ? "map"
                                           : "own row";
  return s;
}

std::string straw_text(const farm::Farm& farm) {
  const Units& u = units_of(farm);
  std::string out =
      wrapped(fmt::format("Oven-dry straw in {} by the field's grain and harvest index; grain as "
                          "delivered. 10th and 90th are percentiles of the field's area.",
                          u.mass_per_area),
              terminal_width, 0) +
      "\n\n" +
      straw_row({"Field", u.area, "grain", "straw", "10th", "90th", "standing", "loose",
                 std::string{"heavy "} + u.area, "from"}) +
      std::string(terminal_width, '-') + "\n";
  const auto order = heaviest_first(farm);
  for (const std::size_t f : order) out += straw_line(farm, f);
  out += totals(farm);
  for (const std::size_t f : order) {
    const farm::YieldPattern* p = pattern_of(farm, f);
    if (p == nullptr || p->zones.empty()) continue;
    out += wrapped(farm.fields[f].id.value + ": " + variation_words(farm, f), terminal_width, 4) + "\n";
  }
  for (const std::string& note : farm.yield_map.notes) out += wrapped(note, terminal_width, 4) + "\n";
  return out;
}

}  // namespace aftercut::report

// Every method of a field side by side, for the terminal.

#include <cmath>

#include "aftercut/machinery/capacity.hpp"
#include "aftercut/report/report.hpp"
#include "parts.hpp"
#include "variation.hpp"

namespace aftercut::report {
namespace {

std::string methods_row(const std::array<std::string, 8>& c) {
  return fmt::format("{} {} {} {} {} {} {} {}\n", fit(c[0], 24), fit(c[1], 7, true), fit(c[2], 12),
                     fit(c[3], 13), fit(c[4], 13, true), fit(c[5], 8, true), fit(c[6], 7, true),
                     fit(c[7], 9, true));
}

const std::string& name_of(const farm::Farm& farm, const plan::MethodOutcome& m) {
  return farm.book.recipes.at(static_cast<std::size_t>(m.method)).name;
}

std::string method_header(const farm::Farm& farm) {
  const Units& u = units_of(farm);
  return methods_row({"  Method", farm.currency + "/" + u.area, "Ready, mid", "By planting", "hours (table)",
                      std::string{"fuel "} + u.fuel, u.water, std::string{u.mass_per_area}}) +
         std::string(terminal_width, '-') + "\n";
}

std::string possible_line(const farm::Farm& farm, const farm::Field& field, const plan::MethodOutcome& m,
                          bool chosen) {
  const Units& u = units_of(farm);
  return methods_row({(chosen ? "> " : "  ") + name_of(farm, m), cost_per_area(farm, field, m),
                      ready_words(farm, field, m.ready.p50, "nothing due"),
                      farm::seedbed_due(field) ? chance_words(m.chance_ready) : "-",
                      fmt::format("{:.1f} ({:.1f})", m.machine_h, m.machine_h_typical),
                      with_thousands(m.fuel_l * u.fuel_per_l), with_thousands(m.water_m3 * u.water_per_m3),
                      with_thousands(m.straw_left_kg_per_ha.p50 * u.mass_per_kg_ha)});
}

std::string barred_line(const farm::Farm& farm, const plan::MethodOutcome& m) {
  return wrapped(fmt::format("x {}: {}", name_of(farm, m), fmt::join(m.why_not, "; ")), terminal_width, 4) +
         "\n";
}

/// Bales and the range of the fuel of the chosen method.
std::string chosen_line(const farm::Farm& farm, const plan::MethodOutcome& m) {
  const Units& u = units_of(farm);
  std::string out;
  if (m.bales && m.bales->bales.p50 > 0.0)
    out = fmt::format("about {:.0f} bales, {:.0f} loads; ", std::ceil(m.bales->bales.p50), m.bales->loads);
  const double fuel = m.fuel_l * u.fuel_per_l;
  return "  " + out +
         fmt::format(
             "fuel {} to {} {} ({:.0f} % either way)\n", with_thousands((1.0 - machinery::fuel_band) * fuel),
             with_thousands((1.0 + machinery::fuel_band) * fuel), u.fuel, 100.0 * machinery::fuel_band);
}

/// One method as a line of a message.
std::string message_line(const farm::Farm& farm, const farm::Field& field, const plan::MethodOutcome& m,
                         bool chosen) {
  const Units& u = units_of(farm);
  std::string out = fmt::format("- {}{}: {} {}/{}", name_of(farm, m), chosen ? " (in the plan)" : "",
                                cost_per_area(farm, field, m), farm.currency, u.area);
  if (farm::seedbed_due(field))
    out += fmt::format("; ready {} in the middle year, by planting in {}",
                       ready_words(farm, field, m.ready.p50, ""), chance_words(m.chance_ready));
  out += fmt::format("; {:.1f} machine hours, {} {} of fuel", m.machine_h,
                     with_thousands(m.fuel_l * u.fuel_per_l), u.fuel);
  if (m.water_m3 > 0.0)
    out += fmt::format(", {} {} of water", with_thousands(m.water_m3 * u.water_per_m3), u.water);
  return out + fmt::format("; {} {} of straw left\n",
                           with_thousands(m.straw_left_kg_per_ha.p50 * u.mass_per_kg_ha), u.mass_per_area);
}

std::string field_block(const farm::Farm& farm, std::size_t f, const plan::FieldPlan& p) {
  const farm::Field& field = farm.fields.at(f);
  const Units& u = units_of(farm);
  std::string out =
      wrapped(fmt::format("Field {} {}: {:.1f} {}, straw {} {}", field.id.value,
                          field.name == field.id.value ? "" : field.name, field.area.value() * u.area_per_ha,
                          u.area, with_thousands(p.load_kg_per_ha * u.mass_per_kg_ha), u.mass_per_area),
              terminal_width, 2) +
      "\n";
  if (const std::string varies = variation_words(farm, f); !varies.empty())
    out += "  " + wrapped(varies, terminal_width - 2, 2) + "\n";
  out += method_header(farm);
  std::string barred;
  for (const auto& m : p.methods) {
    if (m.possible) {
      out += possible_line(farm, field, m, m.method == p.chosen.method);
    } else {
      barred += barred_line(farm, m);
    }
  }
  out += wrapped(fmt::format(
                     "  > in the plan. Money out of pocket, mean over the years. Hours of machines by the "
                     "field's shape, "
                     "in brackets at table field efficiency. {}: straw left before the first spring pass.",
                     u.mass_per_area),
                 terminal_width, 4) +
         "\n";
  for (const auto& m : p.methods)
    if (m.method == p.chosen.method && m.possible) out += chosen_line(farm, m);
  out += environment_table(farm, p);
  for (const auto& why : p.chosen.because) out += wrapped("  because: " + why, terminal_width, 4) + "\n";
  return out + barred;
}

}  // namespace

std::string compare_message(const farm::Problem& problem, const plan::PlannedYears& planned,
                            std::size_t field) {
  const farm::Farm& farm = problem.farm;
  const farm::Field& f = farm.fields.at(field);
  const plan::FieldPlan& p = planned.plan.fields.at(field);
  const Units& u = units_of(farm);
  std::string out =
      fmt::format("{}{}: {:.1f} {}, {} {} of straw. As of {}:\n", f.id.value,
                  f.name == f.id.value ? "" : " " + f.name, f.area.value() * u.area_per_ha, u.area,
                  with_thousands(p.load_kg_per_ha * u.mass_per_kg_ha), u.mass_per_area, iso(problem.as_of));
  std::string barred;
  for (const auto& m : p.methods) {
    if (m.possible) {
      out += message_line(farm, f, m, m.method == p.chosen.method);
      continue;
    }
    barred += fmt::format("- not {}: {}\n", name_of(farm, m), fmt::join(m.why_not, "; "));
  }
  return out + barred;
}

std::string compare_text(const farm::Problem& problem, const plan::PlannedYears& planned, int field) {
  std::string out;
  for (std::size_t f = 0; f < problem.farm.fields.size(); ++f) {
    if (field != plan::none && static_cast<std::size_t>(field) != f) continue;
    out +=
        fmt::format("{}{}", out.empty() ? "" : "\n", field_block(problem.farm, f, planned.plan.fields.at(f)));
  }
  return out;
}

}  // namespace aftercut::report

// Air, next crop and birds of every possible method of a field, for the terminal.

#include "parts.hpp"

namespace aftercut::report {
namespace {

using Cells = std::array<std::string, 6>;

std::string environment_row(const Cells& c) {
  return fmt::format("{} {} {} {} {} {}\n", fit(c[0], 25), fit(c[1], 22, true), fit(c[2], 19, true),
                     fit(c[3], 8, true), fit(c[4], 11, true), fit(c[5], 9, true));
}

std::string method_row(const farm::Farm& farm, const plan::FieldPlan& p, const plan::MethodOutcome& m) {
  const plan::Environment& e = m.environment;
  const double mass = units_of(farm).mass_per_kg_ha;
  const std::string& name = farm.book.recipes.at(static_cast<std::size_t>(m.method)).name;
  return environment_row(
      {(m.method == p.chosen.method ? "> " : "  ") + name,
       fmt::format("{} ({}-{})", with_thousands(e.co2e.mean * mass), with_thousands(e.co2e.low * mass),
                   with_thousands(e.co2e.high * mass)),
       fmt::format("{:.0f} / {:.0f}", e.n_taken_up.mean * mass, e.n_given_back.mean * mass),
       e.disease ? fmt::format("{:.2f}", e.disease->mean) : "-", with_thousands(e.waste_grain.mean * mass),
       fmt::format("{:.0f}", e.bird_days.mean)});
}

}  // namespace

std::string environment_table(const farm::Farm& farm, const plan::FieldPlan& p) {
  const std::string mass = units_of(farm).mass_per_area;
  std::string rows;
  for (const auto& m : p.methods)
    if (m.possible) rows += method_row(farm, p, m);
  if (rows.empty()) return "";
  return environment_row({"  Air, next crop, birds", "CO2e " + mass + " (range)", "N taken/given back",
                          "disease", "waste grain", "bird days"}) +
         std::string(terminal_width, '-') + "\n" + rows;
}

}  // namespace aftercut::report

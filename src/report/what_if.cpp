#include "aftercut/report/what_if.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "beside.hpp"
#include "out_folder.hpp"
#include "parts.hpp"

namespace aftercut::report {
namespace {

namespace fs = std::filesystem;

json case_json(const WhatIfShown& s, std::size_t k) {
  const plan::CaseResult& c = s.what_if->cases[k];
  const farm::Farm& farm = s.problem->farm;
  json set = json::array();
  for (const farm::Setting& v : c.set) set.push_back({{"path", v.path}, {"value", v.value}});
  json planned = figures_json(c.planned_figures, s.what_if->base_figures);
  planned["folder"] = c.name;
  planned["audit"] = audit_counts_json(s.audits[k].planned);
  planned["changes"] = changes_json(farm, c.changes);
  json kept = figures_json(c.kept_figures, s.what_if->base_figures);
  kept["audit"] = audit_counts_json(s.audits[k].kept);
  kept["replaced"] = changes_json(farm, c.replaced);
  return {{"name", c.name},
          {"title", c.title},
          {"note", c.note.empty() ? json(nullptr) : json(c.note)},
          {"set", set},
          {"years", c.planned.plan.years},
          {"planned_again", planned},
          {"plan_kept", kept},
          {"planning_again_saves_per_ha",
           rounded(c.kept_figures.cost_per_ha - c.planned_figures.cost_per_ha, 2)}};
}

std::string row(const std::array<std::string, 8>& c) {
  return fmt::format("{} {} {} {} {}  {} {} {}\n", fit(c[0], 30), fit(c[1], 9, true), fit(c[2], 8, true),
                     fit(c[3], 8, true), fit(c[4], 7, true), fit(c[5], 9, true), fit(c[6], 8, true),
                     fit(c[7], 8, true));
}

std::string per_area(const Units& u, double per_ha, bool sign) {
  const double shown = per_ha / u.area_per_ha;
  return sign ? fmt::format("{:+.0f}", shown + 0.0) : fmt::format("{:.0f}", shown);
}

std::string percent(double chance) { return fmt::format("{:.0f} %", std::floor(100.0 * chance + 1e-9)); }

std::string case_row(const WhatIfShown& s, const plan::CaseResult& c) {
  const Units& u = units_of(s.problem->farm);
  const double base = s.what_if->base_figures.cost_per_ha;
  const plan::WholeFarm &a = c.planned_figures, &b = c.kept_figures;
  return row({c.title, per_area(u, a.cost_per_ha, false), per_area(u, a.cost_per_ha - base, true),
              percent(a.chance), std::to_string(c.changes.size()), per_area(u, b.cost_per_ha, false),
              per_area(u, b.cost_per_ha - base, true), percent(b.chance)});
}

std::string planning_again_words(double saves, const std::string& unit) {
  if (saves >= 0.5) return fmt::format(" Planning again saves {:.0f} {}.", saves, unit);
  if (saves > -0.5) return " Planning again saves nothing: the plan can be kept.";
  return fmt::format(
      " The plan kept does better by {:.0f} {}: the new one is fitted to half of the years and does worse on "
      "the rest.",
      -saves, unit);
}

std::string case_words(const WhatIfShown& s, std::size_t k) {
  const farm::Farm& farm = s.problem->farm;
  const Units& u = units_of(farm);
  const plan::CaseResult& c = s.what_if->cases[k];
  std::string text = c.name + ", " + c.title + ": ";
  if (!c.note.empty()) text += c.note + ". ";
  const char* none_changes = c.note.empty() ? "no field changes its method." : "No field changes its method.";
  text += c.changes.empty() ? none_changes : change_words(farm, c.changes) + ".";
  const double saves = (c.kept_figures.cost_per_ha - c.planned_figures.cost_per_ha) / u.area_per_ha;
  text += planning_again_words(saves, fmt::format("{}/{}", farm.currency, u.area));
  if (!c.replaced.empty())
    text += " Kept, but for what the change bars: " + change_words(farm, c.replaced) + ".";
  for (const bool planned : {true, false}) {
    const audit::Audit& a = planned ? s.audits[k].planned : s.audits[k].kept;
    if (a.ok()) continue;
    text += fmt::format(" Audit of {}: {} faults", planned ? "the new plan" : "the plan kept", a.count);
    if (a.violations.empty()) continue;
    const audit::Violation& v = a.violations.front();
    text += fmt::format("; the first: {} ({}): found {}, expected {}.", v.rule, v.where, v.found, v.expected);
  }
  return wrapped(text, terminal_width, 2) + "\n";
}

}  // namespace

std::string what_if_json(const WhatIfShown& s) {
  const plan::Plan& base = s.what_if->base.plan;
  json cases = json::array();
  for (std::size_t k = 0; k < s.what_if->cases.size(); ++k) cases.push_back(case_json(s, k));
  json figures = figures_json(s.what_if->base_figures, s.what_if->base_figures);
  figures["folder"] = "base";
  figures["audit"] = audit_counts_json(s.base);
  const json out{{"schema", "aftercut-what-if-1"},
                 {"version", base.version},
                 {"seed", base.seed},
                 {"farm", farm_head_json(*s.problem)},
                 {"years", base.years},
                 {"base", figures},
                 {"cases", cases}};
  return out.dump(1) + "\n";
}

std::string what_if_text(const WhatIfShown& s) {
  const farm::Farm& farm = s.problem->farm;
  const Units& u = units_of(farm);
  const plan::WholeFarm& base = s.what_if->base_figures;
  const std::string unit = fmt::format("{}/{}", farm.currency, u.area);
  std::string out =
      fmt::format("{} {}  {}\n", fit("", 30), fit("planned again", 35), "base plan kept") +
      row({"What if", unit, "change", "chance", "fields", unit, "change", "chance"}) +
      std::string(terminal_width, '-') + "\n" +
      row({"base plan", per_area(u, base.cost_per_ha, false), "", percent(base.chance), "", "", "", ""});
  for (const plan::CaseResult& c : s.what_if->cases) out += case_row(s, c);
  out += "\n";
  for (std::size_t k = 0; k < s.what_if->cases.size(); ++k) out += case_words(s, k);
  return out;
}

Result<fs::path> write_what_if(const WhatIfShown& s, const fs::path& out) {
  Issues issues;
  gather(issues, write(*s.problem, s.what_if->base, s.base, out / "base"));
  for (std::size_t k = 0; k < s.what_if->cases.size(); ++k) {
    const plan::CaseResult& c = s.what_if->cases[k];
    gather(issues, write(*s.case_problems[k], c.planned, s.audits[k].planned, out / c.name));
  }
  if (issues.empty()) gather(issues, save_file(out / "what-if.json", what_if_json(s)));
  if (!issues.empty()) return issues;
  return out;
}

}  // namespace aftercut::report

// The plan in the terminal: one line a field, what it costs, how sure, and what stands in the way.

#include <algorithm>

#include "aftercut/report/report.hpp"
#include "one_more.hpp"
#include "parts.hpp"
#include "risk.hpp"
#include "so_far.hpp"

namespace aftercut::report {
namespace {

const plan::MethodOutcome* chosen_of(const plan::FieldPlan& p) {
  const auto at = std::find_if(p.methods.begin(), p.methods.end(), [&](const plan::MethodOutcome& m) {
    return m.method == p.chosen.method && m.possible;
  });
  return p.chosen.method == plan::none || at == p.methods.end() ? nullptr : &*at;
}

std::string fields_row(const std::array<std::string, 7>& c) {
  return fmt::format("{} {} {} {} {} {} {}\n", fit(c[0], 18), fit(c[1], 8, true), fit(c[2], 11, true),
                     fit(c[3], 22), fit(c[4], 14), fit(c[5], 15), fit(c[6], 6, true));
}

std::string summary_header(const farm::Farm& farm) {
  const Units& u = units_of(farm);
  return fields_row({"Field", u.area, fmt::format("straw {}", u.mass_per_area), "What to do", "Ready, middle",
                     "By planting", fmt::format("/{}", u.area)});
}

std::string field_label(const farm::Field& f) {
  return f.name.empty() || f.name == f.id.value ? f.id.value : f.id.value + " " + f.name;
}

std::string field_line(const farm::Farm& farm, std::size_t f, const plan::FieldPlan& p) {
  const farm::Field& field = farm.fields[f];
  const Units& u = units_of(farm);
  const std::string area = fmt::format("{:.1f}", field.area.value() * u.area_per_ha);
  const std::string load = with_thousands(p.load_kg_per_ha * u.mass_per_kg_ha);
  const plan::MethodOutcome* m = chosen_of(p);
  if (m == nullptr) return fields_row({field_label(field), area, load, "no method is open", "-", "-", "-"});
  return fields_row({field_label(field), area, load,
                     farm.book.recipes[static_cast<std::size_t>(m->method)].name,
                     ready_words(farm, field, m->ready.p50, "fallow"),
                     farm::seedbed_due(field) ? chance_words(m->chance_ready) : "nothing due",
                     cost_per_area(farm, field, *m)});
}

std::string years_words(const plan::Plan& p) {
  const std::string used = fmt::format("Chances from {} of {} weather years ({} to {})", p.shown_years.size(),
                                       p.years.size(), p.years.front(), p.years.back());
  return used + (p.chances_in_sample ? "; the same years chose the plan, so they flatter it."
                                     : ", not used to choose the plan.");
}

std::string money_words(const farm::Farm& farm, const plan::Plan& p) {
  std::string out = fmt::format("Cost {} {} out of pocket, mean over all years; {} with owning and own time.",
                                with_thousands(money(p.cost_cents)), farm.currency,
                                with_thousands(money(p.full_cost_cents)));
  if (p.bound_cents) {
    out += fmt::format(" No plan can cost less than {} {}.", with_thousands(money(*p.bound_cents)),
                       farm.currency);
  }
  return out;
}

/// How to set the combine on the fields that still stand; empty when all are cut.
std::string combine_card(const farm::Farm& farm, const plan::Plan& p) {
  const Units& u = units_of(farm);
  std::vector<std::size_t> standing;
  for (std::size_t f = 0; f < farm.fields.size(); ++f)
    if (!farm.fields[f].cut) standing.push_back(f);
  std::stable_sort(standing.begin(), standing.end(), [&](std::size_t a, std::size_t b) {
    return farm.fields[a].harvest < farm.fields[b].harvest;
  });
  std::string out;
  for (const std::size_t f : standing) {
    const plan::Chosen& c = p.fields.at(f).chosen;
    const double ruts = p.fields[f].rut_chance;
    out += wrapped(fmt::format("  {}, about {}: straw {}, chopper {}, cut at {:.0f} {}{}",
                               field_label(farm.fields[f]), short_date(farm.fields[f].harvest),
                               c.lay == straw::Lay::windrow ? "in a windrow" : "spread",
                               c.chopper ? "on" : "off", c.cut_height_cm * u.length_per_cm, u.length,
                               ruts > 0.0 ? "; ruts in " + chance_words(ruts) : ""),
                   terminal_width, 4) +
           "\n";
  }
  return out.empty() ? out : "Combine card\n" + out;
}

/// The shapes that take most machine hours for their area.
std::string shape_words(const farm::Farm& farm) {
  constexpr std::size_t named = 3;
  std::vector<std::pair<double, std::string>> worst;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const double more = farm::hours_over_typical(farm, f);
    if (more > 1.005) worst.emplace_back(-more, farm.fields[f].id.value);
  }
  if (worst.empty()) return "";
  std::stable_sort(worst.begin(), worst.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::string out;
  for (std::size_t k = 0; k < std::min(named, worst.size()); ++k)
    out += fmt::format("{}{} ({:.0f} % more hours than typical)", out.empty() ? "" : ", ", worst[k].second,
                       100.0 * (-worst[k].first - 1.0));
  return wrapped("Shapes that lose most: " + out + ".", terminal_width, 2) + "\n";
}

/// Fields whose next best is as good, and what a week of waiting costs where it costs most.
std::string reasons_words(const farm::Farm& farm, const plan::Plan& p) {
  std::string toss_ups;
  std::size_t dearest = 0;
  for (std::size_t f = 0; f < farm.fields.size(); ++f) {
    const plan::Chosen& c = p.fields.at(f).chosen;
    if (c.next_best && c.toss_up.any())
      toss_ups += fmt::format("{}{} ({})", toss_ups.empty() ? "" : "; ", farm.fields[f].id.value,
                              farm.book.recipes.at(static_cast<std::size_t>(c.next_best->method)).name);
    if (c.wait_a_week.value_or(0) > p.fields.at(dearest).chosen.wait_a_week.value_or(0)) dearest = f;
  }
  std::string out;
  if (!toss_ups.empty())
    out += wrapped("Toss-ups, with the method that would do as well: " + toss_ups + ".", terminal_width, 2) +
           "\n";
  const std::int64_t most = p.fields.empty() ? 0 : p.fields[dearest].chosen.wait_a_week.value_or(0);
  if (most >= 100)
    out += wrapped(fmt::format("Dearest to wait for: {}, {} {} for a week's delay of its first step.",
                               field_label(farm.fields[dearest]), with_thousands(money(most)), farm.currency),
                   terminal_width, 2) +
           "\n";
  return out;
}

std::string fields_words(const farm::Farm& farm, const std::vector<int>& fields) {
  std::string out;
  for (const int f : fields)
    out += fmt::format("{}{}", out.empty() ? "" : ", ", farm.fields.at(static_cast<std::size_t>(f)).id.value);
  return out;
}

std::string audit_words(const audit::Audit& audit) {
  if (audit.ok())
    return fmt::format("Audit: every year worked out again from scratch, {} comparisons, nothing wrong.",
                       audit.checks);
  const auto& first = audit.violations.front();
  return fmt::format("Audit: {} faults in {} comparisons; the first: {} ({}): found {}, expected {}.",
                     audit.count, audit.checks, first.rule, first.where, first.found, first.expected);
}

}  // namespace

std::string summary_text(const farm::Problem& problem, const plan::PlannedYears& planned,
                         const audit::Audit& audit) {
  const farm::Farm& farm = problem.farm;
  const plan::Plan& p = planned.plan;
  std::string out =
      wrapped(fmt::format("{}: {} fields, plan from {}", farm.name, farm.fields.size(), iso(problem.as_of)),
              terminal_width, 2) +
      "\n\n";
  out += summary_header(farm) + std::string(terminal_width, '-') + "\n";
  for (std::size_t f = 0; f < farm.fields.size(); ++f) out += field_line(farm, f, p.fields.at(f));
  out += fmt::format("\n{}\n{}\n", wrapped(years_words(p), terminal_width, 2),
                     wrapped(money_words(farm, p), terminal_width, 2));
  out += reasons_words(farm, p) + shape_words(farm) + one_more_text(farm, p) + combine_card(farm, p) +
         others_text(farm, p);
  out += risk_text(farm, p) + so_far_text(problem) + again_text(farm, p);
  for (const auto& t : p.troubles) {
    out += wrapped(fmt::format("! {}: {} ({})", t.name, t.text, fields_words(farm, t.fields)), terminal_width,
                   2) +
           "\n";
  }
  return out + wrapped(audit_words(audit), terminal_width, 2) + "\n";
}

}  // namespace aftercut::report

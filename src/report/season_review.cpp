#include "aftercut/report/season_review.hpp"

#include <algorithm>

#include "parts.hpp"
#include "so_far.hpp"

namespace aftercut::report {
namespace {

/// Two operations of one name are told apart by the season of the one that is worked in spring.
std::string name_of(const farm::Farm& farm, const std::string& id) {
  const auto& operations = farm.book.operations;
  const auto o = std::ranges::find(operations, id, [](const auto& x) { return x.id.value; });
  if (o == operations.end()) return id;
  const auto index = static_cast<int>(o - operations.begin());
  const bool shared = std::ranges::count(operations, o->name, &method::Operation::name) > 1;
  const bool spring = std::ranges::any_of(farm.book.recipes, [&](const method::Recipe& r) {
    return std::ranges::any_of(r.steps, [&](const method::Step& s) {
      return s.operation == index && s.season == method::Season::spring;
    });
  });
  return shared && spring ? o->name + ", spring" : o->name;
}

std::string work_table(const farm::Farm& farm, const plan::SeasonReview& r) {
  const Units& u = units_of(farm);
  std::string out =
      fmt::format("{:<22}{:>10}{:>9}{:>9}{:>9}{:>9}{:>12}{:>10}\n", "Work", u.area + std::string{" plan"},
                  "done", "h plan", "done", u.fuel + std::string{" plan"}, "done", farm.currency);
  plan::WorkSum planned, done;
  const auto row = [&](const std::string& name, const plan::WorkSum& p, const plan::WorkSum& d) {
    out += fmt::format("{:<22}{:>10.1f}{:>9.1f}{:>9.1f}{:>9.1f}{:>9.0f}{:>12.0f}{:>10}\n", fit(name, 21),
                       p.ha * u.area_per_ha, d.ha * u.area_per_ha, p.hours, d.hours, p.fuel_l * u.fuel_per_l,
                       d.fuel_l * u.fuel_per_l, with_thousands(d.cost - p.cost));
  };
  for (const plan::WorkReview& w : r.work) {
    row(name_of(farm, w.operation), w.planned, w.done);
    add(planned, w.planned);
    add(done, w.done);
  }
  row("all", planned, done);
  if (planned.straw_t > 0.0 || done.straw_t > 0.0)
    out += fmt::format("Straw baled: {:.0f} t, planned were {:.0f}\n", done.straw_t, planned.straw_t);
  return out +
         wrapped(fmt::format("Work alone cost {} {}, planned were {} (fuel, repair, paid people, hire, "
                             "twine, fees; the last "
                             "column is the difference). Planned: the mean of the plan's weather years.",
                             with_thousands(done.cost), farm.currency, with_thousands(planned.cost)),
                 terminal_width, 0) +
         "\n";
}

const char* unit_of_rate(const std::string& key) {
  return key == "speed" ? "km/h" : key == "throughput" ? "t/h" : "ha/day";
}

std::string rates_text(const plan::SeasonReview& r) {
  std::string out;
  for (const plan::RateReview& rate : r.rates) {
    std::string line = fmt::format("{}: {:.1f} h where {:.1f} were expected, {} entries", rate.implement,
                                   rate.hours, rate.expected_hours, rate.entries);
    if (rate.proposed)
      line += fmt::format("; for next year implements \"{}\".{}: {:.2f} instead of {:.2f} {}", rate.implement,
                          rate.key, *rate.proposed, rate.now, unit_of_rate(rate.key));
    out += wrapped(line, terminal_width, 4) + "\n";
  }
  if (out.empty()) return "";
  return "Rates\n" + out +
         wrapped("Nothing is changed by itself: put into farm.json what you find right.", terminal_width, 0) +
         "\n";
}

std::string fields_text(const farm::Farm& farm, const plan::SeasonReview& r) {
  const Units& u = units_of(farm);
  std::string out = "Fields\n";
  for (const plan::FieldReview& f : r.fields) {
    std::string line = f.field + ": ";
    line += f.method.empty() ? "no work recorded, planned " + method_name(farm, f.planned_method)
            : f.method == f.planned_method ? method_name(farm, f.method) + ", as planned"
                                           : fmt::format("{} instead of {}", method_name(farm, f.method),
                                                         method_name(farm, f.planned_method));
    if (f.ready) line += ", ready since " + short_date(*f.ready);
    line += fmt::format(", {} {} of straw left (planned by spring: {})",
                        with_thousands(f.straw_left_kg_per_ha * u.mass_per_kg_ha), u.mass_per_area,
                        with_thousands(f.planned_straw_left_kg_per_ha * u.mass_per_kg_ha));
    out += wrapped(line, terminal_width, 4) + "\n";
  }
  return out;
}

json sum_json(const plan::WorkSum& w) {
  return {{"area_ha", rounded(w.ha, 3)},
          {"hours", rounded(w.hours, 3)},
          {"fuel_l", rounded(w.fuel_l, 2)},
          {"cost", rounded(w.cost, 2)},
          {"straw_t", rounded(w.straw_t, 3)}};
}

json rate_json(const plan::RateReview& r) {
  return {{"implement", r.implement},
          {"entries", r.entries},
          {"area_ha", rounded(r.ha, 3)},
          {"hours", rounded(r.hours, 3)},
          {"expected_hours", rounded(r.expected_hours, 3)},
          {"times", rounded(r.times, 4)},
          {"standard_error", rounded(r.spread, 4)},
          {"key", r.key},
          {"now", rounded(r.now, 4)},
          {"proposed", r.proposed ? json(rounded(*r.proposed, 4)) : json(nullptr)}};
}

json field_json(const plan::FieldReview& f) {
  const auto id = [](const std::string& m) { return m.empty() ? json(nullptr) : json(m); };
  return {{"field", f.field},
          {"planned_method", id(f.planned_method)},
          {"method", id(f.method)},
          {"ready", f.ready ? json(iso(*f.ready)) : json(nullptr)},
          {"chance_first", rounded(f.chance_first, 4)},
          {"straw_left_kg_per_ha", rounded(f.straw_left_kg_per_ha, 1)},
          {"planned_straw_left_kg_per_ha", rounded(f.planned_straw_left_kg_per_ha, 1)},
          {"burned", f.burned}};
}

}  // namespace

std::string season_review_text(const farm::Problem& now, const plan::SeasonReview& r) {
  const farm::Farm& farm = now.farm;
  const Units& u = units_of(farm);
  std::string out = fmt::format("{}: {} to {}, planned against done\n", farm.name, iso(r.from), iso(r.until));
  out += work_table(farm, r);
  out += wrapped(fmt::format("Days on which no field that was cut could be worked: {:.0f} of {}; the plan's "
                             "years had {:.0f} "
                             "in the mean.",
                             r.wet_days, r.days, r.planned_wet_days),
                 terminal_width, 0) +
         "\n";
  for (const plan::YieldReview& y : r.yields)
    out += fmt::format("Yield of {}: {} {}, expected were {}\n", y.field,
                       with_thousands(y.found_kg_per_ha * u.mass_per_kg_ha), u.mass_per_area,
                       with_thousands(y.expected_kg_per_ha * u.mass_per_kg_ha));
  return out + rates_text(r) + fields_text(farm, r);
}

std::string season_review_json(const farm::Problem& now, const plan::SeasonReview& r) {
  json work = json::array(), rates = json::array(), yields = json::array(), fields = json::array();
  for (const plan::WorkReview& w : r.work)
    work.push_back({{"operation", w.operation},
                    {"planned", sum_json(w.planned)},
                    {"done", sum_json(w.done)},
                    {"hours_missing", w.hours_missing}});
  for (const plan::RateReview& x : r.rates) rates.push_back(rate_json(x));
  for (const plan::YieldReview& y : r.yields)
    yields.push_back({{"field", y.field},
                      {"expected_kg_per_ha", rounded(y.expected_kg_per_ha, 1)},
                      {"found_kg_per_ha", rounded(y.found_kg_per_ha, 1)}});
  for (const plan::FieldReview& f : r.fields) fields.push_back(field_json(f));
  const json out{{"farm", now.farm.name},
                 {"currency", now.farm.currency},
                 {"from", iso(r.from)},
                 {"until", iso(r.until)},
                 {"days", r.days},
                 {"wet_days", rounded(r.wet_days, 2)},
                 {"planned_wet_days", rounded(r.planned_wet_days, 2)},
                 {"work", work},
                 {"rates", rates},
                 {"yields", yields},
                 {"fields", fields}};
  return out.dump(1) + "\n";
}

}  // namespace aftercut::report

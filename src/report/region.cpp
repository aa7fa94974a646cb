#include "aftercut/report/region.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "aftercut/core/save_file.hpp"
#include "out_folder.hpp"
#include "parts.hpp"
#include "region_parts.hpp"

namespace aftercut::report {
namespace {

json shares_json(const plan::Shares& shares,
                 const std::array<std::optional<double>, plan::shared_kinds>& limits) {
  json out = json::object();
  for (std::size_t k = 0; k < plan::shared_kinds; ++k)
    out[plan::shared_words[k].key] = limits[k] ? json(rounded(shares[k], 6)) : json(nullptr);
  return out;
}

json field_json(const plan::RegionField& f) {
  return {{"id", f.id},
          {"name", f.name},
          {"area_ha", rounded(f.area_ha, 4)},
          {"method", f.method.empty() ? json(nullptr) : json(f.method)},
          {"cost", money(f.cost_cents)},
          {"chance_ready", f.wants_seedbed ? json(rounded(f.chance, 4)) : json(nullptr)},
          {"ready_p50", f.ready_p50 ? json(iso(*f.ready_p50)) : json(nullptr)},
          {"baled_t", rounded(f.baled_t, 2)},
          {"burned_t", rounded(f.burned_t, 2)},
          {"left_t", rounded(f.left_t, 2)}};
}

json farm_json(const plan::RegionFarm& farm, const plan::Region& region) {
  json fields = json::array(), autumn = json::array(), spring = json::array();
  for (const plan::RegionField& f : farm.fields) fields.push_back(field_json(f));
  const auto id = [&](int f) { return farm.fields.at(static_cast<std::size_t>(f)).id; };
  for (const int f : farm.decision.autumn_order) autumn.push_back(id(f));
  for (const int f : farm.decision.spring_order) spring.push_back(id(f));
  return {{"folder", farm.folder},
          {"name", farm.name},
          {"area_ha", rounded(farm.area_ha, 4)},
          {"cost", money(farm.cost_cents)},
          {"cost_alone", money(farm.alone_cents)},
          {"bound", money(farm.bound_cents)},
          {"share", shares_json(farm.share, region.limits)},
          {"used", shares_json(farm.used, region.limits)},
          {"autumn", autumn},
          {"spring", spring},
          {"fields", fields}};
}

json limits_json(const plan::Region& region) {
  json out = json::object();
  for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
    const auto& limit = region.limits[k];
    out[plan::shared_words[k].key] = {{"limit", limit ? json(rounded(*limit, 6)) : json(nullptr)},
                                      {"one_more_worth", rounded(region.worth[k], 2)}};
  }
  return out;
}

}  // namespace

double area_of(const plan::Region& region) {
  double area = 0.0;
  for (const plan::RegionFarm& farm : region.farms) area += farm.area_ha;
  return area;
}

std::size_t field_count(const plan::Region& region) {
  std::size_t n = 0;
  for (const plan::RegionFarm& farm : region.farms) n += farm.fields.size();
  return n;
}

double used_of(const plan::Region& region, std::size_t kind) {
  double sum = 0.0;
  for (const plan::RegionFarm& farm : region.farms) sum += farm.used[kind];
  return sum;
}

double gap_percent(const plan::Region& region) {
  const auto cost = static_cast<double>(plan::cost_of(region));
  return cost > 0.0 ? 100.0 * (1.0 - static_cast<double>(plan::bound_of(region)) / cost) : 0.0;
}

std::vector<MethodArea> methods_by_area(const plan::Region& region) {
  std::map<std::string, MethodArea> by_id;
  for (const plan::RegionFarm& farm : region.farms)
    for (const plan::RegionField& f : farm.fields) {
      MethodArea& m = by_id[f.method];
      m.method = f.method;
      m.name = f.method.empty() ? "no method" : f.method_name;
      m.area_ha += f.area_ha;
      m.fields += 1;
    }
  std::vector<MethodArea> out;
  for (auto& [id, m] : by_id) out.push_back(std::move(m));
  std::ranges::stable_sort(out, std::ranges::greater{}, &MethodArea::area_ha);
  return out;
}

std::string region_json(const RegionShown& s) {
  const plan::Region& r = *s.region;
  json farms = json::array();
  for (const plan::RegionFarm& farm : r.farms) farms.push_back(farm_json(farm, r));
  const double cost = money(plan::cost_of(r)), bound = money(plan::bound_of(r));
  const json out{{"schema", "aftercut-region-1"},
                 {"version", s.version},
                 {"seed", r.seed},
                 {"name", r.name},
                 {"currency", r.currency},
                 {"weather_years", r.years},
                 {"area_ha", rounded(area_of(r), 4)},
                 {"shared", limits_json(r)},
                 {"shares_fit", r.fits},
                 {"objective",
                  {{"plan", cost},
                   {"bound", bound},
                   {"gap", rounded(cost - bound, 2)},
                   {"gap_percent", rounded(gap_percent(r), 3)}}},
                 {"chance_ready", rounded(plan::chance_of(r), 4)},
                 {"farms", farms},
                 {"audit", audit_counts_json(s.audit)}};
  return out.dump(1) + "\n";
}

std::string region_text(const RegionShown& s) {
  const plan::Region& r = *s.region;
  const double cost = money(plan::cost_of(r)), bound = money(plan::bound_of(r)), area = area_of(r);
  std::string out =
      fmt::format("{}: {} farms, {} fields, {} ha, {} weather years\n\n", r.name, r.farms.size(),
                  with_thousands(static_cast<double>(field_count(r))), with_thousands(area), r.years);
  out += fmt::format("Plan {} {} a year ({:.0f} {}/ha); no plan costs less than {}: gap {:.1f} %.\n",
                     with_thousands(cost), r.currency, cost / area, r.currency, with_thousands(bound),
                     gap_percent(r));
  out += fmt::format(
      "Seedbeds ready by planting: {:.0f} % of the area in years that the search did not use.\n\n",
      std::floor(100.0 * plan::chance_of(r)));
  out += fmt::format("{:32}{:>12}{:>12}{:>24}\n", "Shared", "limit", "used", "one more is worth");
  for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
    const plan::SharedWord& w = plan::shared_words[k];
    if (!r.limits[k]) continue;
    out += fmt::format("{:32}{:>12}{:>12}{:>24}\n", w.words, fmt::format("{:.2f} {}", *r.limits[k], w.unit),
                       fmt::format("{:.2f}", used_of(r, k)),
                       fmt::format("about {} {}", with_thousands(r.worth[k]), r.currency));
  }
  if (!r.fits) out += "The limits cannot be kept: methods that are fixed ask for more than there is.\n";
  out += fmt::format("\n{:32}{:>12}{:>12}\n", "Method", "fields", "ha");
  for (const MethodArea& m : methods_by_area(r))
    out += fmt::format("{}{:>12}{:>12}\n", fit(m.name, 32), m.fields, with_thousands(m.area_ha));
  return out + fmt::format("\nAudit: {} checks, {}.\n", s.audit.checks,
                           s.audit.ok() ? "nothing found" : fmt::format("{} violations", s.audit.count));
}

std::string region_fields_geojson(const plan::Region& region) {
  std::string out = "{\"type\": \"FeatureCollection\", \"features\": [\n";
  bool first = true;
  for (const plan::RegionFarm& farm : region.farms)
    for (const plan::RegionField& f : farm.fields) {
      if (f.outline.empty()) continue;
      json ring = json::array();
      for (const geo::Point& p : f.outline) ring.push_back({rounded(p.x, 6), rounded(p.y, 6)});
      json properties = field_json(f);
      properties["farm"] = farm.folder;
      const json feature{{"type", "Feature"},
                         {"properties", properties},
                         {"geometry", {{"type", "Polygon"}, {"coordinates", json::array({ring})}}}};
      out += (first ? "" : ",\n") + feature.dump();
      first = false;
    }
  return out + "\n]}\n";
}

Result<std::filesystem::path> write_region(const RegionShown& s, const std::filesystem::path& out) {
  const std::vector<std::string> names{"region-fields.geojson", "region.html", "region-progress.csv",
                                       "region-progress.svg", "region-plan.json"};
  return write_folder(out, names, [&](const std::filesystem::path& folder) {
    Issues issues;
    gather(issues, save_file(folder / "region-fields.geojson", region_fields_geojson(*s.region)));
    gather(issues, save_file(folder / "region.html", region_html(s)));
    gather(issues, save_file(folder / "region-progress.csv", region_progress_csv(s.moments)));
    gather(issues,
           save_file(folder / "region-progress.svg", region_progress_svg(s.moments, s.region->currency)));
    gather(issues, save_file(folder / "region-plan.json", region_json(s)));
    return issues;
  });
}

}  // namespace aftercut::report

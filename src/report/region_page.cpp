// The page of a region: a map of every field by its method, what is shared, and the farms.

#include <algorithm>
#include <array>
#include <cmath>

#include "aftercut/report/region.hpp"
#include "parts.hpp"
#include "region_parts.hpp"

namespace aftercut::report {
namespace {

constexpr double map_wide = 960.0;

/// Fills that differ by pattern as well as by colour, for methods by their area.
struct Fill {
  const char* ground;
  const char* drawn;  ///< inside a tile of 6 by 6
};
constexpr std::array<Fill, 8> fills{
    {{"#e9dcb2", ""},
     {"#c3d9d2", "<path d=\"M0 6L6 0\" stroke=\"#20564b\" stroke-width=\"1.2\"/>"},
     {"#e7c4ad", "<circle cx=\"3\" cy=\"3\" r=\"1.3\" fill=\"#7a3410\"/>"},
     {"#c9cfe6", "<path d=\"M0 3H6\" stroke=\"#2b3a78\" stroke-width=\"1.2\"/>"},
     {"#dcdcdc", "<path d=\"M3 0V6\" stroke=\"#444\" stroke-width=\"1.2\"/>"},
     {"#d8e6bd", "<path d=\"M0 0L6 6\" stroke=\"#4a6213\" stroke-width=\"1.2\"/>"},
     {"#ecc9d8", "<path d=\"M0 3H6M3 0V6\" stroke=\"#7b1f4b\" stroke-width=\"1\"/>"},
     {"#ffffff", "<path d=\"M0 6L6 0M0 0L6 6\" stroke=\"#555\" stroke-width=\"1\"/>"}}};

std::size_t fill_of(const std::vector<MethodArea>& methods, const std::string& method) {
  const auto at = std::ranges::find(methods, method, &MethodArea::method);
  return std::min(static_cast<std::size_t>(at - methods.begin()), fills.size() - 1);
}

std::string patterns() {
  std::string out = "<defs>";
  for (std::size_t k = 0; k < fills.size(); ++k)
    out += fmt::format(
        "<pattern id=\"m{}\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\"><rect width=\"6\" "
        "height=\"6\" fill=\"{}\"/>{}</pattern>",
        k, fills[k].ground, fills[k].drawn);
  return out + "</defs>";
}

/// Longitude and latitude onto the picture, as wide as it is true in its middle.
class Frame {
 public:
  explicit Frame(const plan::Region& region) {
    for (const plan::RegionFarm& farm : region.farms)
      for (const plan::RegionField& f : farm.fields)
        for (const geo::Point& p : f.outline) {
          low_ = {std::min(low_.x, p.x), std::min(low_.y, p.y)};
          high_ = {std::max(high_.x, p.x), std::max(high_.y, p.y)};
        }
    constexpr double degree = 3.14159265358979323846 / 180.0;
    const double east = (high_.x - low_.x) * std::cos(0.5 * (high_.y + low_.y) * degree);
    wide_ = high_.x - low_.x;
    tall_ = std::clamp(map_wide * (high_.y - low_.y) / std::max(east, 1e-9), 120.0, 1600.0);
  }
  [[nodiscard]] bool empty() const { return high_.x <= low_.x || high_.y <= low_.y; }
  [[nodiscard]] double tall() const { return tall_; }
  [[nodiscard]] std::string path(const geo::Path& ring) const {
    std::string d;
    for (const geo::Point& p : ring)
      d += fmt::format("{}{:.1f} {:.1f}", d.empty() ? "M" : "L", (p.x - low_.x) / wide_ * map_wide,
                       (high_.y - p.y) / (high_.y - low_.y) * tall_);
    return d + "Z";
  }

 private:
  geo::Point low_{1e9, 1e9}, high_{-1e9, -1e9};
  double wide_ = 1.0, tall_ = 120.0;
};

std::string map_of(const plan::Region& region, const std::vector<MethodArea>& methods) {
  const Frame frame{region};
  if (frame.empty()) return "<p>No field of this region has a drawn outline.</p>\n";
  std::string out = fmt::format(
      "<svg class=\"map\" viewBox=\"0 0 {} {:.0f}\" role=\"img\" aria-label=\"Map of {} fields by method; "
      "the table "
      "of methods has the figures\">{}",
      map_wide, frame.tall(), field_count(region), patterns());
  for (const plan::RegionFarm& farm : region.farms)
    for (const plan::RegionField& f : farm.fields) {
      if (f.outline.empty()) continue;
      out += fmt::format("<path class=\"f\" fill=\"url(#m{})\" d=\"{}\"><title>{} {}: {}</title></path>",
                         fill_of(methods, f.method), frame.path(f.outline), html_text(farm.name),
                         html_text(f.id), html_text(f.method.empty() ? "no method" : f.method_name));
    }
  return out + "</svg>\n";
}

std::string methods_table(const std::vector<MethodArea>& methods) {
  std::string out =
      "<table><thead><tr><th></th><th>Method</th><th>Fields</th><th>ha</th></tr></thead><tbody>\n";
  for (const MethodArea& m : methods)
    out += fmt::format(
        "<tr><td><svg width=\"26\" height=\"16\" aria-hidden=\"true\"><rect width=\"26\" height=\"16\" "
        "fill=\"url(#m{})\" stroke=\"#555\"/></svg></td><th "
        "scope=\"row\">{}</th><td>{}</td><td>{}</td></tr>\n",
        fill_of(methods, m.method), html_text(m.name), m.fields, with_thousands(m.area_ha));
  return out + "</tbody></table>\n";
}

std::string shared_table(const plan::Region& r) {
  std::string rows;
  for (std::size_t k = 0; k < plan::shared_kinds; ++k) {
    if (!r.limits[k]) continue;
    const plan::SharedWord& w = plan::shared_words[k];
    rows += fmt::format(
        "<tr><th scope=\"row\">{}, {}</th><td>{:.2f}</td><td>{:.2f}</td><td>about {} {}</td></tr>\n", w.words,
        w.unit, *r.limits[k], used_of(r, k), with_thousands(r.worth[k]), html_text(r.currency));
  }
  if (rows.empty()) return "<p>The farms of this region share no limit.</p>\n";
  return "<table><thead><tr><th>Shared</th><th>Limit</th><th>Used</th><th>One more saves a "
         "year</th></tr></thead>"
         "<tbody>\n" +
         rows + "</tbody></table>\n";
}

std::string number_or_dash(const std::optional<double>& limit, double used) {
  return limit ? fmt::format("{:.2f}", used) : "–";
}

std::string farms_table(const plan::Region& r) {
  std::string out =
      "<div class=\"scroller\" tabindex=\"0\" role=\"region\" aria-label=\"Every farm\"><table><thead><tr>"
      "<th>Folder</th><th>Farm</th><th>Fields</th><th>ha</th><th>Cost a year</th><th>Per ha</th><th>No plan "
      "below</th><th>Seedbeds in time</th><th>Burned on a day, ha</th><th>In a season, ha</th><th>Canal, "
      "m3/s</th></tr></thead><tbody>\n";
  for (const plan::RegionFarm& farm : r.farms) {
    const plan::Region one{.farms = {farm}};
    out += fmt::format(
        "<tr><th "
        "scope=\"row\">{}</th><td>{}</td><td>{}</td><td>{:.1f}</td><td>{}</td><td>{:.0f}</td><td>{}</td>"
        "<td>{:.0f} %</td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
        html_text(farm.folder), html_text(farm.name), farm.fields.size(), farm.area_ha,
        with_thousands(money(farm.cost_cents)), money(farm.cost_cents) / farm.area_ha,
        with_thousands(money(farm.bound_cents)), std::floor(100.0 * plan::chance_of(one)),
        number_or_dash(r.limits[plan::burn_day], farm.used[plan::burn_day]),
        number_or_dash(r.limits[plan::burn_season], farm.used[plan::burn_season]),
        number_or_dash(r.limits[plan::canal_flow], farm.used[plan::canal_flow]));
  }
  return out + "</tbody></table></div>\n";
}

const char* const region_style =
    "body{font:16px/1.45 system-ui,sans-serif;color:#1d241f;background:#fff;max-width:64rem;margin:1rem auto;"
    "padding:0 1rem}h1{font-size:1.5rem}h2{font-size:1.15rem;margin:1.5rem 0 "
    ".3rem}.map{width:100%;height:auto;"
    "border:1px solid #cfd6cc}.f{stroke:#3c463f;stroke-width:.4}table{border-collapse:collapse}"
    "th,td{border-bottom:1px solid #cfd6cc;padding:.25rem .6rem;text-align:right}tbody th{text-align:left}"
    ".scroller{overflow-x:auto}section{break-inside:avoid-page}";

}  // namespace

std::string region_html(const RegionShown& s) {
  const plan::Region& r = *s.region;
  const auto methods = methods_by_area(r);
  const double cost = money(plan::cost_of(r)), area = area_of(r);
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width,initial-scale=1\"><title>{0}</title><style>{1}</style></"
      "head><body><h1>{0}</h1>\n",
      html_text(r.name), region_style);
  out += fmt::format(
      "<p>{} farms, {} fields, {} ha, {} weather years. The plan costs {} {} a year, {:.0f} a hectare; no "
      "plan "
      "costs less than {} (gap {:.1f} %: the bound knows each year's weather, no plan does). Seedbeds are "
      "ready by "
      "planting on {:.0f} % of the area in years that the search did not use.</p>\n",
      r.farms.size(), with_thousands(static_cast<double>(field_count(r))), with_thousands(area), r.years,
      with_thousands(cost), html_text(r.currency), cost / area, with_thousands(money(plan::bound_of(r))),
      gap_percent(r), std::floor(100.0 * plan::chance_of(r)));
  if (!r.fits)
    out +=
        "<p><strong>The limits cannot be kept: methods that are fixed ask for more than there "
        "is.</strong></p>\n";
  out += "<section><h2>Methods</h2>\n" + map_of(r, methods) + methods_table(methods) + "</section>\n";
  out +=
      "<section><h2>What the farms share</h2>\n" + shared_table(r) +
      "<p>Each farm has a share of its own of each limit; what one leaves over on a day is not passed on. A "
      "share "
      "of burn area says nothing about whether a burn can be held: that is for the authority, day by day.</p>"
      "</section>\n";
  return out + "<section><h2>Farms</h2>\n" + farms_table(r) + "</section></body></html>\n";
}

}  // namespace aftercut::report

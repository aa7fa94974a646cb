// Which points of a yield map are left out: rules in docs/yield-maps.md.

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "aftercut/core/numbers.hpp"
#include "yield_parts.hpp"

namespace aftercut::farm {
namespace {

/// Points nearer than this stand at one place [degrees, about 1 cm]. Source: YieldMapRules (assumed)
constexpr double same_place_deg = 1e-7;

struct Kept {
  geo::Point at;
  double dry = 0.0;  ///< kg/ha
};

std::pair<std::int64_t, std::int64_t> place_key(const Kept& k) {
  return {std::llround(k.at.x / same_place_deg), std::llround(k.at.y / same_place_deg)};
}

/// One point a place, the middle one by yield; the rest counted.
std::vector<Kept> one_a_place(std::vector<Kept> points, std::size_t& dropped) {
  std::sort(points.begin(), points.end(), [](const Kept& a, const Kept& b) {
    return std::tuple{place_key(a), a.dry, a.at} < std::tuple{place_key(b), b.dry, b.at};
  });
  std::vector<Kept> out;
  for (std::size_t first = 0; first < points.size();) {
    std::size_t end = first + 1;
    while (end < points.size() && place_key(points[end]) == place_key(points[first])) ++end;
    out.push_back(points[first + (end - first - 1) / 2]);
    dropped += end - first - 1;
    first = end;
  }
  return out;
}

/// Without the points far from the field's median; where over half of them are alike nothing is dropped.
std::vector<Kept> near_median(std::vector<Kept> points, const MapSettings& s, std::size_t& dropped) {
  if (points.empty()) return points;
  std::vector<double> values;
  for (const Kept& k : points) values.push_back(k.dry);
  const double median = quantile(values, 0.5);
  for (double& v : values) v = std::abs(v - median);
  const double mad = quantile(values, 0.5);
  if (mad == 0.0) return points;
  const double most = std::max(s.outlier_mads * mad, s.outlier_share * median);
  dropped += std::erase_if(points, [&](const Kept& k) { return std::abs(k.dry - median) > most; });
  return points;
}

std::optional<Drop> fault_of(const MapPoint& p, bool inside, const MapSettings& s) {
  const double moisture = p.moisture.value_or(s.moisture);
  if (!p.kg_per_ha) return Drop::empty;
  if (!inside) return Drop::outside;
  if (moisture < s.driest || moisture > s.wettest) return Drop::moisture;
  if (*p.kg_per_ha <= 0.0 || *p.kg_per_ha > s.most_yield_kg_per_ha) return Drop::impossible;
  return std::nullopt;
}

}  // namespace

Sifted sift(const std::vector<MapPoint>& points, const std::vector<geo::Shape>& fields,
            const MapSettings& settings) {
  Sifted out;
  out.all = points.size();
  out.kept.resize(fields.size());
  std::vector<geo::Point> places;
  for (const MapPoint& p : points) places.push_back(p.at);
  const auto holder = geo::holders(places, fields);
  std::vector<std::vector<Kept>> kept(fields.size());
  const auto count = [&out](Drop why) -> std::size_t& { return out.dropped[static_cast<std::size_t>(why)]; };
  for (std::size_t i = 0; i < points.size(); ++i) {
    const MapPoint& p = points[i];
    if (const auto why = fault_of(p, holder[i].has_value(), settings))
      ++count(*why);
    else
      kept[*holder[i]].push_back({p.at, *p.kg_per_ha * (1.0 - p.moisture.value_or(settings.moisture))});
  }
  for (std::size_t f = 0; f < fields.size(); ++f) {
    std::vector<Kept> sound = one_a_place(std::move(kept[f]), count(Drop::same_place));
    sound = near_median(std::move(sound), settings, count(Drop::far_from_median));
    for (const Kept& k : sound) out.kept[f].push_back({k.at, k.dry});
  }
  return out;
}

}  // namespace aftercut::farm

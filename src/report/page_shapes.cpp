// Shapes for the page: fields, places, stack places, setbacks of burn rows, and which field's water comes
// from which.

#include <algorithm>

#include "aftercut/farm/place_words.hpp"
#include "aftercut/geo/around.hpp"
#include "layers.hpp"

namespace aftercut::report {
namespace {

json ring_json(const geo::Path& path) {
  json out = json::array();
  for (const auto& p : path) out.push_back({rounded(p.x, 7), rounded(p.y, 7)});
  return out;
}

json point_json(const geo::Point& p) { return {rounded(p.x, 7), rounded(p.y, 7)}; }

json geometry_json(const geo::Shape& shape) {
  json parts = json::array();
  if (!shape.polygons.empty()) {
    json polygons = json::array();
    for (const auto& p : shape.polygons) {
      json rings = json::array({ring_json(p.outer)});
      for (const auto& hole : p.holes) rings.push_back(ring_json(hole));
      polygons.push_back(rings);
    }
    parts.push_back({{"type", "MultiPolygon"}, {"coordinates", polygons}});
  }
  for (const auto& line : shape.lines)
    parts.push_back({{"type", "LineString"}, {"coordinates", ring_json(line)}});
  for (const auto& point : shape.points)
    parts.push_back({{"type", "Point"}, {"coordinates", point_json(point)}});
  return parts.size() == 1 ? parts[0] : json{{"type", "GeometryCollection"}, {"geometries", parts}};
}

json feature_json(const json& properties, const geo::Shape& shape) {
  return {{"type", "Feature"}, {"properties", properties}, {"geometry", geometry_json(shape)}};
}

json collection(const json& features) { return {{"type", "FeatureCollection"}, {"features", features}}; }

const char* cover_words(farm::StackCover cover) {
  if (cover == farm::StackCover::none) return "uncovered";
  return cover == farm::StackCover::half_open ? "half open" : "closed";
}

json stacks_json(const farm::Farm& farm) {
  json out = json::array();
  for (const farm::StackPlace& s : farm.stacking.places) {
    if (s.shape == geo::Shape{}) continue;
    out.push_back(feature_json({{"id", s.id},
                                {"cover", cover_words(s.cover)},
                                {"most_bales", s.most_bales ? json(*s.most_bales) : json(nullptr)}},
                               s.shape));
  }
  return out;
}

/// The row of the rules that asks for this distance.
const burn::Rule* row_of(const burn::Jurisdiction& j, const std::string& kind) {
  const auto row = std::find_if(j.rules.begin(), j.rules.end(),
                                [&](const burn::Rule& r) { return r.name == "setback_" + kind; });
  return row == j.rules.end() ? nullptr : &*row;
}

/// "power line" of a place is "power_line" of a row.
std::string kind_in_rows(farm::PlaceKind kind) {
  std::string text = kind == farm::PlaceKind::other ? "other" : farm::words_of(kind);
  std::replace(text.begin(), text.end(), ' ', '_');
  return text;
}

/// Ground that is nearer to a place than a row asks for; nothing where no row gives a distance.
json setbacks_json(const farm::Farm& farm) {
  json out = json::array();
  if (!farm.burning) return out;
  const burn::Limits limits = burn::limits_of(*farm.burning);
  for (const farm::Place& p : farm.places) {
    const std::string kind = kind_in_rows(p.kind);
    const auto at = std::find(burn::setback_kinds.begin(), burn::setback_kinds.end(), kind);
    const burn::Rule* row = row_of(*farm.burning, kind);
    if (p.shape == geo::Shape{} || at == burn::setback_kinds.end() || row == nullptr) continue;
    const auto metres = limits.setback_m[static_cast<std::size_t>(at - burn::setback_kinds.begin())];
    if (!metres || !(*metres > 0.0)) continue;
    const burn::RowWords words = burn::words_of(*row);
    out.push_back(feature_json({{"place", p.name.empty() ? farm::words_of(p.kind) : p.name},
                                {"kind", farm::words_of(p.kind)},
                                {"metres", rounded(*metres, 1)},
                                {"row", words.name},
                                {"says", words.quote},
                                {"weight", row->weight},
                                {"source", words.source}},
                               geo::around(p.shape, Metre{*metres})));
  }
  return out;
}

const char* link_words(farm::LinkKind kind) {
  if (kind == farm::LinkKind::fills_from) return "fills_from";
  return kind == farm::LinkKind::drains_to ? "drains_to" : "seeps_from";
}

json links_json(const farm::Farm& farm) {
  json out = json::array();
  for (const auto& f : farm.fields)
    for (const farm::Link& link : f.links)
      out.push_back({{"field", f.id.value}, {"kind", link_words(link.kind)}, {"other", link.other.value}});
  return out;
}

}  // namespace

json page_shapes(const farm::Farm& farm) {
  json fields = json::array(), places = json::array();
  for (const auto& f : farm.fields) {
    if (f.shape.polygons.empty()) continue;
    fields.push_back(
        feature_json({{"id", f.id.value}, {"label", point_json(geo::label_point(f.shape))}}, f.shape));
  }
  for (const auto& p : farm.places) {
    if (p.shape == geo::Shape{}) continue;
    places.push_back(feature_json({{"name", p.name}, {"kind", farm::words_of(p.kind)}}, p.shape));
  }
  return {{"fields", collection(fields)},
          {"places", collection(places)},
          {"stacks", collection(stacks_json(farm))},
          {"setbacks", collection(setbacks_json(farm))},
          {"links", links_json(farm)}};
}

}  // namespace aftercut::report

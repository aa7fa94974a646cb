#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "aftercut/core/require.hpp"
#include "aftercut/geo/layer.hpp"
#include "plane.hpp"

namespace aftercut::geo {
namespace {

// GEOS's reasons in plain words, looked for in this order.
constexpr std::array<std::pair<const char*, const char*>, 9> reasons{{
    {"Ring Self-intersection", "boundary touching itself"},
    {"Self-intersection", "self-crossing boundary"},
    {"Hole lies outside shell", "hole outside its boundary"},
    {"Holes are nested", "hole inside a hole"},
    {"Interior is disconnected", "inside cut in two by its holes"},
    {"Nested shells", "part inside another part"},
    {"Duplicate Rings", "the same boundary twice"},
    {"Too few", "boundary with fewer than three corners"},
    {"Invalid Coordinate", "corner that is not a number"},
}};

std::string plain_reason(const std::string& said) {
  const auto* found = std::find_if(reasons.begin(), reasons.end(),
                                   [&](const auto& r) { return said.find(r.first) != std::string::npos; });
  return found == reasons.end() ? said : found->second;
}

// What GEOS holds against the geometry, e.g. "self-crossing boundary near -122.01, 39.20"; empty when it is
// valid.
std::string fault_of(const Geos& geos, const GEOSGeometry* g) {
  char* said = nullptr;
  GEOSGeometry* where = nullptr;
  const char valid = GEOSisValidDetail_r(geos.handle(), g, 0, &said, &where);
  std::string fault;
  if (valid != 1) {
    fault = plain_reason(said == nullptr ? "faulty boundary" : said);
    double x = 0.0, y = 0.0;
    if (where != nullptr && GEOSGeomGetX_r(geos.handle(), where, &x) == 1 &&
        GEOSGeomGetY_r(geos.handle(), where, &y) == 1)
      fault += fmt::format(" near {:.5f}, {:.5f}", x, y);
  }
  if (said != nullptr) GEOSFree_r(geos.handle(), said);
  if (where != nullptr) GEOSGeom_destroy_r(geos.handle(), where);
  return fault;
}

// Polygons without the rings that have no inside; true when a ring was dropped.
std::pair<std::vector<Polygon>, bool> without_flat_rings(const std::vector<Polygon>& polygons) {
  std::vector<Polygon> kept;
  bool dropped = false;
  for (Polygon polygon : polygons) {
    dropped |= std::erase_if(polygon.holes, [](const Path& hole) { return !has_area(hole); }) > 0;
    if (has_area(polygon.outer)) {
      kept.push_back(std::move(polygon));
    } else {
      dropped = true;
    }
  }
  return {kept, dropped};
}

struct Tree {
  GEOSContextHandle_t handle;
  GEOSSTRtree* tree;
  explicit Tree(const Geos& geos) : handle{geos.handle()}, tree{GEOSSTRtree_create_r(geos.handle(), 10)} {}
  ~Tree() { GEOSSTRtree_destroy_r(handle, tree); }
  Tree(const Tree&) = delete;
  Tree& operator=(const Tree&) = delete;
};

Hectare shared_area(const Geos& geos, const GEOSGeometry* a, const GEOSGeometry* b) {
  if (GEOSIntersects_r(geos.handle(), a, b) != 1) return Hectare{0.0};
  const Geometry both = own(geos, GEOSIntersection_r(geos.handle(), a, b));
  return geodesic_area(Shape{polygons_from(geos, both.get()), {}, {}});
}

std::vector<std::size_t> neighbours(const Tree& tree, const GEOSGeometry* g) {
  std::vector<std::size_t> near;
  const auto note = [](void* item, void* list) {
    static_cast<std::vector<std::size_t>*>(list)->push_back(*static_cast<std::size_t*>(item));
  };
  GEOSSTRtree_query_r(tree.handle, tree.tree, g, note, &near);
  std::sort(near.begin(), near.end());
  return near;
}

}  // namespace

Repaired repair(const Shape& shape) {
  const Geos geos;
  Repaired out{shape, {}};
  auto [polygons, dropped] = without_flat_rings(shape.polygons);
  out.shape.polygons = std::move(polygons);
  std::string fault = dropped ? "boundary with fewer than three corners dropped" : "";
  Geometry g = polygons_of(geos, out.shape);
  const std::string said = fault_of(geos, g.get());
  if (!said.empty()) {
    g = made_valid(geos, std::move(g));
    out.shape.polygons = polygons_from(geos, g.get());
    fault += (fault.empty() ? "" : "; ") + said;
  }
  if (!fault.empty())
    out.what = fmt::format("{}; area {:.1f} -> {:.1f} ha", fault, geodesic_area(shape).value(),
                           geodesic_area(out.shape).value());
  return out;
}

std::vector<Overlap> overlaps(const std::vector<Shape>& shapes, Hectare least) {
  const Geos geos;
  std::vector<Geometry> all;
  for (const Shape& shape : shapes) all.push_back(made_valid(geos, polygons_of(geos, shape)));
  std::vector<std::size_t> index(shapes.size());
  const Tree tree{geos};
  for (std::size_t i = 0; i < all.size(); ++i) {
    index[i] = i;
    if (!GEOSisEmpty_r(geos.handle(), all[i].get()))
      GEOSSTRtree_insert_r(geos.handle(), tree.tree, all[i].get(), &index[i]);
  }
  std::vector<Overlap> found;
  for (std::size_t a = 0; a < all.size(); ++a) {
    if (GEOSisEmpty_r(geos.handle(), all[a].get())) continue;
    for (const std::size_t b : neighbours(tree, all[a].get())) {
      if (b <= a) continue;
      const Hectare area = shared_area(geos, all[a].get(), all[b].get());
      if (area > least) found.push_back({a, b, area});
    }
  }
  return found;
}

}  // namespace aftercut::geo

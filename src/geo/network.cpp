#include "aftercut/geo/network.hpp"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "plane.hpp"

namespace aftercut::geo {
namespace {

constexpr double meet_m = 2.0;  // ends so near are one crossing. Source: RoadEnds (assumed)

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS, boost::no_property,
                                    boost::property<boost::edge_weight_t, double>>;

/// The lines cut where they cross, each piece with no crossing inside.
std::vector<Path> noded(const Geos& geos, const Shape& roads, const ToPlane& plane) {
  const Geometry all = own(geos, GEOSUnaryUnion_r(geos.handle(), everything_of(geos, roads, plane).get()));
  std::vector<Path> pieces;
  const int n = GEOSGetNumGeometries_r(geos.handle(), all.get());
  for (int k = 0; k < n; ++k) {
    Path path = path_from(geos, GEOSGetGeometryN_r(geos.handle(), all.get(), k));
    if (path.size() < 2) continue;
    pieces.push_back(std::move(path));
  }
  return pieces;
}

/// Vertices of the graph: crossings first found first.
class Crossings {
 public:
  explicit Crossings(std::size_t first) : first_{first} {}
  std::size_t at(Point p) {
    const auto near =
        std::find_if(points_.begin(), points_.end(), [&](Point q) { return apart(p, q) <= meet_m; });
    if (near != points_.end()) return first_ + static_cast<std::size_t>(near - points_.begin());
    points_.push_back(p);
    return first_ + points_.size() - 1;
  }

 private:
  std::size_t first_;
  std::vector<Point> points_;
};

void link(Graph& graph, std::size_t a, std::size_t b, double metres) {
  boost::add_edge(a, b, metres, graph);
  boost::add_edge(b, a, metres, graph);
}

/// Where a stop touches a piece of road.
struct Touch {
  double along_m = 0.0, off_m = 0.0;
  std::size_t stop = 0;
};

/// A stop in the plane: how near it is to a road, and the place that its ways start from.
struct Stop {
  Geometry outline, start;
};

std::vector<Touch> touches_of(const Geos& geos, const GEOSGeometry* road, const std::vector<Stop>& stops,
                              double reach_m) {
  GEOSContextHandle_t h = geos.handle();
  std::vector<Touch> out;
  for (std::size_t s = 0; s < stops.size(); ++s) {
    Touch t{.stop = s};
    if (GEOSDistance_r(h, road, stops[s].outline.get(), &t.off_m) != 1 || t.off_m > reach_m) continue;
    const GEOSGeometry* start = stops[s].start ? stops[s].start.get() : stops[s].outline.get();
    if (stops[s].start && GEOSDistance_r(h, road, start, &t.off_m) != 1) continue;
    const Point on = nearest_point_on(geos, road, start);
    const Geometry point = own(geos, GEOSGeom_createPointFromXY_r(h, on.x, on.y));
    t.along_m = GEOSProject_r(h, road, point.get());
    out.push_back(t);
  }
  std::sort(out.begin(), out.end(), [](const Touch& a, const Touch& b) {
    return std::tie(a.along_m, a.stop) < std::tie(b.along_m, b.stop);
  });
  return out;
}

/// Vertices: of stop s, 2 s to leave from and 2 s + 1 to arrive at; then crossings; then touches.
Graph graph_of(const Geos& geos, const std::vector<Path>& pieces, const std::vector<Stop>& stops,
               double reach_m) {
  Crossings crossings{2 * stops.size()};
  std::vector<std::pair<std::size_t, std::size_t>> ends;
  for (const Path& p : pieces) ends.emplace_back(crossings.at(p.front()), crossings.at(p.back()));
  Graph graph{2 * stops.size()};
  std::size_t next = 2 * stops.size();
  for (const auto& [a, b] : ends) next = std::max({next, a + 1, b + 1});
  for (std::size_t k = 0; k < pieces.size(); ++k) {
    Shape one;
    one.lines = {pieces[k]};
    const Geometry road = everything_of(geos, one);
    double length = 0.0, driven = 0.0;
    GEOSLength_r(geos.handle(), road.get(), &length);
    std::size_t here = ends[k].first;
    const GEOSGeometry* line = GEOSGetGeometryN_r(geos.handle(), road.get(), 0);  // belongs to the road
    for (const Touch& t : touches_of(geos, line, stops, reach_m)) {
      link(graph, here, next, t.along_m - driven);
      boost::add_edge(2 * t.stop, next, t.off_m, graph);
      boost::add_edge(next, 2 * t.stop + 1, t.off_m, graph);
      driven = t.along_m;
      here = next++;
    }
    link(graph, here, ends[k].second, length - driven);
  }
  return graph;
}

std::vector<std::vector<double>> way_lengths(const std::vector<Path>& lines, const std::vector<Shape>& stops,
                                             double reach_m, bool from_middles) {
  constexpr double none = std::numeric_limits<double>::infinity();
  std::vector<std::vector<double>> metres(stops.size(), std::vector<double>(stops.size(), none));
  for (std::size_t s = 0; s < stops.size(); ++s) metres[s][s] = 0.0;
  if (lines.empty() || stops.empty()) return metres;
  Shape roads;
  roads.lines = lines;
  const ToPlane plane = azimuthal_plane(centre_of(roads));
  const Geos geos;
  std::vector<Stop> places;
  for (const Shape& s : stops)
    places.push_back({everything_of(geos, s, plane),
                      from_middles ? everything_of(geos, middle_of(s), plane) : Geometry{}});
  const Graph graph = graph_of(geos, noded(geos, roads, plane), places, reach_m);
  std::vector<double> from_here(boost::num_vertices(graph));
  for (std::size_t s = 0; s < stops.size(); ++s) {
    boost::dijkstra_shortest_paths(graph, 2 * s, boost::distance_map(from_here.data()).distance_inf(none));
    for (std::size_t t = 0; t < stops.size(); ++t)
      if (t != s) metres[s][t] = from_here[2 * t + 1];
  }
  return metres;
}

}  // namespace

Shape middle_of(const Shape& shape) {
  return shape.polygons.empty() ? shape : Shape{{}, {}, {label_point(shape)}};
}

std::vector<std::vector<double>> ways_along(const std::vector<Path>& lines, const std::vector<Shape>& stops,
                                            double reach_m) {
  return way_lengths(lines, stops, reach_m, false);
}

std::vector<std::vector<double>> ways_from_middles(const std::vector<Path>& lines,
                                                   const std::vector<Shape>& stops, double reach_m) {
  return way_lengths(lines, stops, reach_m, true);
}

}  // namespace aftercut::geo

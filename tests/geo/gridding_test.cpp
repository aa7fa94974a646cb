// Frames, shares of cells, means of points and outlines of cells.

#include "aftercut/geo/gridding.hpp"

#include <algorithm>
#include <cmath>

#include "catch2/catch.hpp"
#include "drawn.hpp"

using namespace aftercut;
using namespace aftercut::test;

namespace {

const geo::Point centre{-121.9, 39.4};

/// The L of three unit squares of about 400 m.
geo::Shape l_field() { return one(l_ring({-121.903, 39.397}, 0.004)); }

geo::Frame frame_of_field() { return geo::frame_over({l_field()}, centre, Metre{20.0}); }

/// Middle of a cell in metres of the frame.
std::pair<double, double> middle(const geo::Frame& f, std::size_t cell) {
  const auto columns = static_cast<std::size_t>(f.columns);
  return {(f.west + static_cast<double>(cell % columns) + 0.5) * f.cell_m,
          (f.north - static_cast<double>(cell / columns) - 0.5) * f.cell_m};
}

/// The middles of a frame's cells as samples of a function of metres east and north.
template <class F>
std::vector<geo::Sample> sampled(const geo::Frame& frame, F f) {
  std::vector<double> values(frame.size());
  for (std::size_t i = 0; i < values.size(); ++i)
    values[i] = f(middle(frame, i).first, middle(frame, i).second);
  return geo::samples_of(geo::grid_of(frame, values)).value();
}

}  // namespace

TEST_CASE("shares of cells add up to the field's area", "[identity]") {
  const geo::Frame frame = frame_of_field();
  double area = 0.0, whole = 0.0;
  for (const geo::CellShare& c : geo::cells_in(frame, l_field())) {
    CHECK(c.share > 0.0);
    CHECK(c.share <= 1.0);
    area += c.share * 0.04;
    whole += c.share == 1.0 ? 1.0 : 0.0;
  }
  CHECK(area == Approx(geo::geodesic_area(l_field()).value()).epsilon(1e-5));
  CHECK(whole > 1000.0);
}

TEST_CASE("frames of one centre and cell fit into each other", "[identity]") {
  const geo::Frame whole = frame_of_field();
  const geo::Frame part = geo::frame_over({one(square({-121.901, 39.3985}, 0.002))}, centre, Metre{20.0});
  CHECK(part.west >= whole.west);
  CHECK(part.north <= whole.north);
  CHECK(part.west + part.columns <= whole.west + whole.columns);
  CHECK(part.size() < whole.size());
}

TEST_CASE("points of a plane surface give the plane in every cell", "[identity]") {
  const geo::Frame frame = frame_of_field();
  geo::Frame fine = frame;  // points every 10 m, at the cells' quarters, and beyond the frame's edge
  fine.cell_m = 10.0;
  fine.west = 2 * frame.west - 4;
  fine.north = 2 * frame.north + 4;
  fine.columns = 2 * frame.columns + 8;
  fine.rows = 2 * frame.rows + 8;
  const auto plane = [](double x, double y) { return 8000.0 + 3.0 * x - 2.0 * y; };
  const auto means = geo::moving_mean(frame, sampled(fine, plane), Metre{20.0});
  double worst = 0.0;
  for (std::size_t i = 0; i < means.size(); ++i)
    worst = std::max(worst, std::abs(means[i] - plane(middle(frame, i).first, middle(frame, i).second)));
  CHECK(worst < 0.01);
}

TEST_CASE("a cell without a point within reach has no value", "[identity]") {
  const geo::Frame frame = frame_of_field();
  const auto one_point = geo::moving_mean(frame, {{centre, 5.0}}, Metre{30.0});
  std::size_t reached = 0;
  for (std::size_t i = 0; i < one_point.size(); ++i) {
    const auto [x, y] = middle(frame, i);
    CHECK(std::isnan(one_point[i]) == (std::hypot(x, y) > 30.0));
    reached += std::isnan(one_point[i]) ? 0 : 1;
  }
  CHECK(reached == 4);
  CHECK(std::isnan(geo::moving_mean(frame, {}, Metre{30.0})[0]));
}

TEST_CASE("wanted cells become patches, cut off at the boundary", "[identity]") {
  const geo::Frame frame = frame_of_field();
  std::vector<bool> wanted(frame.size(), false);
  double area = 0.0;
  std::size_t count = 0;
  for (const geo::CellShare& c : geo::cells_in(frame, l_field())) {
    const auto [x, y] = middle(frame, c.cell);
    const bool west = x < -150.0, island = std::abs(x - 250.0) < 45.0 && std::abs(y + 150.0) < 45.0;
    if (!west && !island) continue;
    wanted[c.cell] = true;
    area += c.share * 0.04;
    ++count;
  }
  const auto found = geo::patches(frame, wanted, l_field());
  REQUIRE(found.size() == 2);
  CHECK(found[0].cells.size() + found[1].cells.size() == count);
  const double outlined =
      geo::geodesic_area(found[0].outline).value() + geo::geodesic_area(found[1].outline).value();
  CHECK(outlined == Approx(area).epsilon(1e-5));
  CHECK(geo::patches(frame, std::vector<bool>(frame.size(), false), l_field()).empty());
}

TEST_CASE("each point finds the shape that it lies in", "[identity]") {
  const std::vector<geo::Shape> shapes{l_field(), one(square({-121.899, 39.401}, 0.004))};
  const auto found =
      geo::holders({{-121.902, 39.398}, {-121.8971, 39.4031}, {-121.85, 39.4}, {NAN, NAN}}, shapes);
  CHECK(found[0] == 0U);
  CHECK(found[1] == 1U);
  CHECK_FALSE(found[2].has_value());
  CHECK_FALSE(found[3].has_value());
}

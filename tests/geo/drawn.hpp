#pragma once
// Small fields for the tests of room geo, and files to hold them.

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "aftercut/geo/shape.hpp"

namespace aftercut::test {

/// A folder that is gone when the test is over.
struct Folder {
  std::filesystem::path path;
  explicit Folder(const std::string& name)
      : path{std::filesystem::temp_directory_path() / (name + "-" + std::to_string(::getpid()))} {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  ~Folder() { std::filesystem::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::filesystem::path put(const std::string& name, const std::string& text) const {
    std::ofstream{path / name, std::ios::binary} << text;
    return path / name;
  }
};

inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

/// A ring through corners given as (east, north) steps of `step` degrees from `corner`.
inline geo::Path ring(geo::Point corner, double step, const std::vector<std::pair<double, double>>& steps) {
  geo::Path path;
  for (const auto& [x, y] : steps) path.push_back({corner.x + step * x, corner.y + step * y});
  path.push_back(path.front());
  return path;
}

inline geo::Shape one(geo::Path outer, std::vector<geo::Path> holes = {}) {
  return geo::Shape{{geo::Polygon{std::move(outer), std::move(holes)}}, {}, {}};
}

//   +--+
//   |  |
//   |  +--+      an L of three unit squares
//   |     |
//   +-----+
inline geo::Path l_ring(geo::Point corner, double step) {
  return ring(corner, step, {{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}});
}

inline geo::Path square(geo::Point corner, double step) {
  return ring(corner, step, {{0, 0}, {1, 0}, {1, 1}, {0, 1}});
}

}  // namespace aftercut::test

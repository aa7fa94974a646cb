#pragma once
// A folder of a test's own, and a way to look into issues.

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "aftercut/core/result.hpp"

namespace aftercut::test {

/// An empty folder, gone at the end.
struct Scratch {
  std::filesystem::path path;
  explicit Scratch(const std::string& name)
      : path{std::filesystem::temp_directory_path() /
             ("aftercut_farm_" + std::to_string(::getpid()) + "_" + name)} {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() { std::filesystem::remove_all(path); }
  [[nodiscard]] std::filesystem::path file(const std::string& name, const std::string& text) const {
    std::ofstream{path / name, std::ios::binary} << text;
    return path / name;
  }
};

/// A table of three fields as a US grower would write it.
inline const std::string us_table =
    "Field,Area (acres),Harvest,Soil,Grain (lb),Ticket\n"
    "North 76,76,2026-09-18,Basin clay,1200000,301\n"
    "Ditch check,44,2026-09-21,Basin clay,,301\n"
    "Low 40,40,2026-10-02,\"Silty clay, deep\",352000,\n";

inline std::string all_text(const Issues& issues) {
  std::string out;
  for (const Issue& i : issues) out += to_text(i) + "\n";
  return out;
}

inline bool says(const Issues& issues, const std::string& part) {
  return all_text(issues).find(part) != std::string::npos;
}

}  // namespace aftercut::test

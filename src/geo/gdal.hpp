#pragma once
// Inside room geo: GDAL started once, and its messages caught as text instead of printed.

#include <filesystem>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "aftercut/core/result.hpp"

namespace aftercut::geo {

/// Registers GDAL's drivers once and keeps PROJ off the network.
void start_gdal();

/// Catches the messages that GDAL and PROJ raise in this thread while it lives.
class Listener {
 public:
  Listener();
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  /// True when a failure (not only a warning) was raised.
  [[nodiscard]] bool failed() const { return !failures_.empty(); }
  /// The failures, each once, joined by "; "; empty when there were none.
  [[nodiscard]] std::string text() const;
  void hear(bool failure, std::string message);  ///< called by GDAL's message hook

 private:
  std::vector<std::string> failures_;
};

/// Nothing when `file` stands there with at least one byte (or is a folder); else the issue.
Issues missing_or_empty(const std::filesystem::path& file);

/// A name beside `file` for the unfinished copy, with the same ending (GDAL looks at it).
std::filesystem::path unfinished_name(const std::filesystem::path& file);

/// A file that does not stay behind, whatever happens.
struct Unfinished {
  std::filesystem::path path;
  explicit Unfinished(std::filesystem::path p) : path{std::move(p)} { remove(); }
  ~Unfinished() { remove(); }
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  void remove() const {
    std::error_code error;
    std::filesystem::remove(path, error);
  }
};

}  // namespace aftercut::geo

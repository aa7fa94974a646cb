#pragma once
// The project's own files, as the structure tests read them.

#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace aftercut::test {

struct TextFile {
  std::string path;                ///< relative to the project folder
  std::vector<std::string> lines;  ///< without line ends
};

/// The files below these folders with one of these endings, in the order of their paths; no packages, no
/// built files.
std::vector<TextFile> files_below(const std::vector<std::string>& folders,
                                  const std::set<std::string>& endings);

TextFile file_at(const std::string& path);

/// The second folder of a path like "src/soil/water.cpp" or "include/aftercut/soil/water.hpp" that names the
/// room.
std::string room_of(const std::string& path);

}  // namespace aftercut::test

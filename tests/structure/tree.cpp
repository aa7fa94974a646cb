#include "tree.hpp"

#include <algorithm>
#include <fstream>

namespace aftercut::test {
namespace {
namespace fs = std::filesystem;
const fs::path root{AFTERCUT_SOURCE_DIR};
}  // namespace

TextFile file_at(const std::string& path) {
  TextFile file{path, {}};
  std::ifstream in{root / path};
  for (std::string line; std::getline(in, line);) file.lines.push_back(line);
  return file;
}

std::vector<TextFile> files_below(const std::vector<std::string>& folders,
                                  const std::set<std::string>& endings) {
  std::vector<TextFile> files;
  for (const std::string& folder : folders) {
    if (!fs::exists(root / folder)) continue;
    const auto follow = fs::directory_options::follow_directory_symlink;
    for (auto at = fs::recursive_directory_iterator{root / folder, follow};
         at != fs::recursive_directory_iterator{}; ++at) {
      if (at->path().filename() == "node_modules" || at->path().filename() == "dist")
        at.disable_recursion_pending();
      if (at->is_regular_file() && endings.contains(at->path().extension()))
        files.push_back(file_at(fs::path{folder} / fs::relative(at->path(), root / folder)));
    }
  }
  std::sort(files.begin(), files.end(), [](const TextFile& a, const TextFile& b) { return a.path < b.path; });
  return files;
}

std::string room_of(const std::string& path) {
  const fs::path p{path};
  auto part = p.begin();
  const int before = *part == "include" ? 2 : 1;  // include/aftercut/<room>, src/<room>
  std::advance(part, std::min<std::ptrdiff_t>(before, std::distance(p.begin(), p.end()) - 1));
  return part->string();
}

}  // namespace aftercut::test

#include "aftercut/core/left_behind.hpp"

#include <fmt/format.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <optional>
#include <vector>

namespace aftercut {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view ending = ".part", beginning = ".part-";

bool lives(pid_t process) { return ::kill(process, 0) == 0 || errno == EPERM; }

/// What "NAME.PROCESS.part" or ".part-PROCESS-NAME" says.
struct Part {
  std::string name, process;
};
std::optional<Part> part_of(const std::string& file) {
  if (file.starts_with(beginning)) {
    const std::size_t dash = std::min(file.find('-', beginning.size()), file.size() - 1);
    return Part{file.substr(dash + 1), file.substr(beginning.size(), dash - beginning.size())};
  }
  if (!file.ends_with(ending)) return std::nullopt;
  const std::string rest = file.substr(0, file.size() - ending.size());
  const std::size_t dot = rest.rfind('.');
  if (dot == std::string::npos) return std::nullopt;
  return Part{rest.substr(0, dot), rest.substr(dot + 1)};
}

/// A number that no living process has.
bool has_ended(const std::string& number) {
  pid_t process = 0;
  const char* const last = number.data() + number.size();
  const auto [end, error] = std::from_chars(number.data(), last, process);
  return error == std::errc{} && end == last && process > 0 && !lives(process);
}

}  // namespace

fs::path part_beside(const fs::path& path) {
  return path.string() + fmt::format(".{}{}", ::getpid(), ending);
}

fs::path part_named_alike(const fs::path& path) {
  return path.parent_path() / fmt::format("{}{}-{}", beginning, ::getpid(), path.filename().string());
}

void remove_left_behind(const fs::path& folder, const std::string& name) {
  std::error_code ignored;
  std::vector<fs::path> found;
  for (fs::directory_iterator at{folder, ignored}, end; at != end; at.increment(ignored)) {
    const auto part = part_of(at->path().filename().string());
    if (part && !part->name.empty() && (name.empty() || part->name == name) && has_ended(part->process))
      found.push_back(at->path());
  }
  for (const fs::path& path : found) fs::remove_all(path, ignored);
}

}  // namespace aftercut

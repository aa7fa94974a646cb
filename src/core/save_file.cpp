#include "aftercut/core/save_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

namespace aftercut {
namespace {

namespace fs = std::filesystem;

Issues refused(const fs::path& path, const std::string& doing) {
  return {Issue{path.string(), "whole file", fmt::format("{}: {}", doing, std::strerror(errno)),
                "a writable place", "choose another folder, free some space or change its rights"}};
}

bool sync_path(const fs::path& path, int flags) {
  const int fd = ::open(path.c_str(), flags);
  if (fd < 0) return false;
  const bool good = ::fsync(fd) == 0;
  return ::close(fd) == 0 && good;
}

bool write_all(int fd, std::string_view text) {
  while (!text.empty()) {
    const ssize_t n = ::write(fd, text.data(), text.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    text.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

fs::path folder_of(const fs::path& path) {
  return path.has_parent_path() ? path.parent_path() : fs::path{"."};
}

}  // namespace

Result<fs::path> put_in_place(const fs::path& finished, const fs::path& path) {
  if (!sync_path(finished, O_RDONLY)) return refused(path, "could not sync");
  if (::rename(finished.c_str(), path.c_str()) != 0) return refused(path, "could not rename");
  if (!sync_path(folder_of(path), O_RDONLY | O_DIRECTORY)) return refused(path, "could not sync the folder");
  return path;
}

Result<fs::path> save_file(const fs::path& path, std::string_view text) {
  const fs::path beside = path.string() + fmt::format(".{}.part", ::getpid());
  const int fd = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644);
  if (fd < 0) return refused(path, "could not create");
  const bool written = write_all(fd, text);
  if (::close(fd) != 0 || !written) {
    const Issues issues = refused(path, "could not write");
    ::unlink(beside.c_str());
    return issues;
  }
  auto placed = put_in_place(beside, path);
  if (!placed.ok()) ::unlink(beside.c_str());
  return placed;
}

Issue no_plain_file(const fs::path& path) {
  return {path.string(), "whole file", "a device or a pipe, which may never end", "a file on a disk",
          "save what it gives as a file and name that"};
}

Result<std::string> read_file(const fs::path& path) {
  std::error_code error;
  if (!fs::exists(path, error))
    return Issues{Issue{path.string(), "whole file", "no such file", "a readable file",
                        "check the name and the folder"}};
  if (fs::is_directory(path, error))
    return Issues{
        Issue{path.string(), "whole file", "a folder", "a readable file", "name the file inside it"}};
  if (!fs::is_regular_file(path, error)) return Issues{no_plain_file(path)};
  std::ifstream in{path, std::ios::binary};
  std::ostringstream all;
  all << in.rdbuf();
  if (!in.good() && !in.eof())
    return Issues{
        Issue{path.string(), "whole file", "an unreadable file", "a readable file", "check its rights"}};
  return std::move(all).str();
}

}  // namespace aftercut

#include "aftercut/core/save_file.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

#include "aftercut/core/left_behind.hpp"

namespace aftercut {
namespace {

namespace fs = std::filesystem;

Issues refused(const fs::path& path, const std::string& doing) {
  return {Issue{path.string(), "whole file", fmt::format("{}: {}", doing, std::strerror(errno)),
                "a writable place", "choose another folder, free some space or change its rights"}};
}

}  // namespace

Result<fs::path> put_in_place(const fs::path& finished, const fs::path& path, Disk& disk) {
  if (!sync_path(disk, finished, Disk::Open::as_is)) return refused(path, "could not sync");
  if (disk.rename(finished, path) != 0) return refused(path, "could not rename");
  if (!sync_path(disk, folder_of(path), Disk::Open::folder))
    return refused(path, "could not sync the folder");
  return path;
}

Result<fs::path> save_file(const fs::path& path, std::string_view text, Disk& disk) {
  // Not by way of `disk`: what is taken away here decides nothing about what a power cut leaves.
  if (&disk == &real_disk()) remove_left_behind(folder_of(path), path.filename().string());
  const fs::path beside = part_beside(path);
  const int fd = disk.open(beside, Disk::Open::fresh);
  if (fd < 0) return refused(path, "could not create");
  const bool written = write_all(disk, fd, text);
  const int why = errno;
  const bool closed = disk.close(fd) == 0;
  if (!written || !closed) {
    if (!written) errno = why;
    Issues issues = refused(path, "could not write");
    disk.remove(beside);
    return issues;
  }
  auto placed = put_in_place(beside, path, disk);
  if (!placed.ok()) disk.remove(beside);
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

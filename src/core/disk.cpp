#include "aftercut/core/disk.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>

#include "aftercut/core/save_file.hpp"

namespace aftercut {
namespace {

namespace fs = std::filesystem;

int flags_of(Disk::Open how) {
  switch (how) {
    case Disk::Open::fresh:
      return O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC;
    case Disk::Open::append:
      return O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC;
    case Disk::Open::as_is:
      return O_RDONLY | O_CLOEXEC;
    case Disk::Open::folder:
      return O_RDONLY | O_DIRECTORY | O_CLOEXEC;
  }
  return O_RDONLY;
}

class RealDisk final : public Disk {
 public:
  int open(const fs::path& path, Open how) override { return ::open(path.c_str(), flags_of(how), 0644); }
  std::int64_t write(int fd, std::string_view bytes) override {
    ssize_t n = -1;
    do n = ::write(fd, bytes.data(), bytes.size());
    while (n < 0 && errno == EINTR);
    return n;
  }
  int sync(int fd) override { return ::fsync(fd); }
  int cut(int fd, std::uint64_t size) override { return ::ftruncate(fd, static_cast<off_t>(size)); }
  int close(int fd) override { return ::close(fd); }
  int rename(const fs::path& from, const fs::path& to) override { return ::rename(from.c_str(), to.c_str()); }
  int remove(const fs::path& path) override { return ::unlink(path.c_str()); }
  Result<std::optional<std::string>> read(const fs::path& path) override {
    std::error_code error;
    if (fs::symlink_status(path, error).type() == fs::file_type::not_found)
      return std::optional<std::string>{};
    auto text = read_file(path);
    if (!text.ok()) return text.issues();
    return std::optional{std::move(text).value()};
  }
};

}  // namespace

Disk& real_disk() {
  static RealDisk disk;
  return disk;
}

bool write_all(Disk& disk, int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const std::int64_t n = disk.write(fd, bytes);
    if (n == 0) errno = ENOSPC;
    if (n <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

bool sync_path(Disk& disk, const fs::path& path, Disk::Open how) {
  const int fd = disk.open(path, how);
  if (fd < 0) return false;
  const bool good = disk.sync(fd) == 0;
  const int why = errno;
  const bool closed = disk.close(fd) == 0;
  if (!good) errno = why;
  return good && closed;
}

fs::path folder_of(const fs::path& path) {
  return path.has_parent_path() ? path.parent_path() : fs::path{"."};
}

}  // namespace aftercut

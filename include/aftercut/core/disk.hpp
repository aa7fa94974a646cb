#pragma once
// The calls to the file system that decide what a power cut, a full disk or a kill leaves. A plug, so that
// tests fail any one of them or cut the power at it; programs use real_disk().

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "aftercut/core/result.hpp"

namespace aftercut {

/// As the calls of POSIX: what fails gives -1 and says why in errno.
class Disk {
 public:
  enum class Open { fresh, append, as_is, folder };  ///< created empty; created or gone on with; read only

  Disk() = default;
  Disk(const Disk&) = delete;
  Disk& operator=(const Disk&) = delete;
  virtual ~Disk() = default;
  virtual int open(const std::filesystem::path& path, Open how) = 0;
  /// How many bytes were written, which can be fewer than asked for.
  virtual std::int64_t write(int fd, std::string_view bytes) = 0;
  virtual int sync(int fd) = 0;
  virtual int cut(int fd, std::uint64_t size) = 0;  ///< to so many bytes
  virtual int close(int fd) = 0;
  virtual int rename(const std::filesystem::path& from, const std::filesystem::path& to) = 0;
  virtual int remove(const std::filesystem::path& path) = 0;
  /// Nothing where there is no such file; an issue where it cannot be read.
  virtual Result<std::optional<std::string>> read(const std::filesystem::path& path) = 0;
};

/// The operating system's.
Disk& real_disk();

/// All of `bytes`, however many calls it takes; false: the disk refused, errno says why.
bool write_all(Disk& disk, int fd, std::string_view bytes);
/// Opens, syncs and closes the file or folder; false: the disk refused.
bool sync_path(Disk& disk, const std::filesystem::path& path, Disk::Open how);
/// Where the file's name stands: "." for a bare name.
std::filesystem::path folder_of(const std::filesystem::path& path);

}  // namespace aftercut

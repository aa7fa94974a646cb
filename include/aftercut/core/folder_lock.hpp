#pragma once
// One writer at a time in a folder, among threads and programs: an advisory lock on a file of the folder, let
// go when the value goes or the program ends, however it ends.

#include <filesystem>

#include "aftercut/core/result.hpp"

namespace aftercut {

class FolderLock {
 public:
  /// Waits up to `patience_ms` for another writer. Issues: the folder cannot be written to; the other writer
  /// did not finish.
  static Result<FolderLock> take(const std::filesystem::path& folder, int patience_ms = 3000);
  FolderLock(FolderLock&& other) noexcept;
  FolderLock& operator=(FolderLock&&) = delete;
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;
  ~FolderLock();

 private:
  explicit FolderLock(int fd) : fd_{fd} {}
  int fd_ = -1;
};

}  // namespace aftercut

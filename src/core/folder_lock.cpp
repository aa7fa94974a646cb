#include "aftercut/core/folder_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <thread>
#include <utility>

namespace aftercut {
namespace {

constexpr const char* lock_name = ".aftercut.lock";
constexpr int pause_ms = 20;

}  // namespace

Result<FolderLock> FolderLock::take(const std::filesystem::path& folder, int patience_ms) {
  const std::filesystem::path file = folder / lock_name;
  const int fd = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
  if (fd < 0)
    return Issues{{file.string(), "lock", std::strerror(errno), "a folder that can be written to",
                   "change the folder's rights or free some space"}};
  for (int waited = 0; ::flock(fd, LOCK_EX | LOCK_NB) != 0; waited += pause_ms) {
    if (waited >= patience_ms) {
      ::close(fd);
      return Issues{{file.string(), "lock", "another program is writing in this folder",
                     "one writer at a time", "wait until it is done, then try again"}};
    }
    std::this_thread::sleep_for(std::chrono::milliseconds{pause_ms});
  }
  return FolderLock{fd};
}

FolderLock::FolderLock(FolderLock&& other) noexcept : fd_{std::exchange(other.fd_, -1)} {}

FolderLock::~FolderLock() {
  if (fd_ >= 0) ::close(fd_);  // the lock goes with it
}

}  // namespace aftercut

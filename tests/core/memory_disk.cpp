#include "memory_disk.hpp"

#include <algorithm>
#include <cerrno>

namespace aftercut::test {

namespace fs = std::filesystem;

void MemoryDisk::expect(Trouble trouble) {
  trouble_ = trouble;
  calls_ = 0;
}

bool MemoryDisk::fails() {
  const int call = calls_++;
  const bool struck = trouble_.from_then ? call >= trouble_.at : call == trouble_.at;
  if (!struck || trouble_.kind == Trouble::Kind::none || trouble_.kind == Trouble::Kind::short_write)
    return false;
  if (trouble_.kind == Trouble::Kind::power_cut) throw PowerCut{};
  errno = trouble_.why;
  return true;
}

int MemoryDisk::open(const fs::path& path, Open how) {
  if (fails()) return -1;
  const int fd = next_fd_++;
  if (how == Open::folder) {
    folders_.insert(fd);
    return fd;
  }
  const auto there = names_.find(path.string());
  if (there == names_.end()) {
    if (how == Open::as_is) {
      errno = ENOENT;
      return -1;
    }
    const auto file = std::make_shared<File>();
    names_[path.string()] = file;
    waiting_.push_back({path.string(), "", file});
  }
  const auto file = names_.at(path.string());
  if (how == Open::fresh && !file->now.empty()) {
    file->now.clear();
    file->waiting.push_back({true, 0, ""});
  }
  open_[fd] = file;
  return fd;
}

std::int64_t MemoryDisk::write(int fd, std::string_view bytes) {
  const bool cut_short = trouble_.kind == Trouble::Kind::short_write && calls_ == trouble_.at;
  if (fails()) return -1;
  if (cut_short) bytes = bytes.substr(0, bytes.size() / 2);
  File& file = *open_.at(fd);
  file.now += bytes;
  file.waiting.push_back({false, 0, std::string{bytes}});
  return static_cast<std::int64_t>(bytes.size());
}

int MemoryDisk::sync(int fd) {
  if (fails()) return -1;
  if (folders_.contains(fd)) {
    synced_names_ = names_;
    waiting_.clear();
    return 0;
  }
  File& file = *open_.at(fd);
  file.synced = file.now;
  file.waiting.clear();
  return 0;
}

int MemoryDisk::cut(int fd, std::uint64_t size) {
  if (fails()) return -1;
  File& file = *open_.at(fd);
  file.now.resize(size);
  file.waiting.push_back({true, size, ""});
  return 0;
}

int MemoryDisk::close(int fd) {
  const bool failed = trouble_.kind != Trouble::Kind::power_cut && fails();  // a cut there is one at the next
  open_.erase(fd);
  folders_.erase(fd);
  return failed ? -1 : 0;
}

int MemoryDisk::rename(const fs::path& from, const fs::path& to) {
  if (fails()) return -1;
  const auto file = names_.at(from.string());
  names_.erase(from.string());
  names_[to.string()] = file;
  waiting_.push_back({to.string(), from.string(), file});
  return 0;
}

int MemoryDisk::remove(const fs::path& path) {
  if (fails()) return -1;
  if (names_.erase(path.string()) == 0) {
    errno = ENOENT;
    return -1;
  }
  waiting_.push_back({"", path.string(), nullptr});
  return 0;
}

Result<std::optional<std::string>> MemoryDisk::read(const fs::path& path) {
  const auto there = names_.find(path.string());
  if (there == names_.end()) return std::optional<std::string>{};
  return std::optional{there->second->now};
}

std::map<std::string, std::string> MemoryDisk::files() const {
  std::map<std::string, std::string> all;
  for (const auto& [name, file] : names_) all[name] = file->now;
  return all;
}

std::vector<std::string> MemoryDisk::leftovers(const File& file) {
  std::set<std::string> all{file.synced};
  std::string text = file.synced;
  for (const Change& c : file.waiting) {
    if (c.cut) {
      text.resize(c.size);
    } else {
      for (std::size_t k = 0; k <= c.bytes.size(); ++k) {
        all.insert(text + c.bytes.substr(0, k));
        all.insert(text + c.bytes.substr(0, k) + std::string(c.bytes.size() - k, '\0'));
      }
      text += c.bytes;
    }
    all.insert(text);
  }
  return {all.begin(), all.end()};
}

std::vector<std::map<std::string, std::string>> MemoryDisk::after_power_cut() const {
  std::set<std::map<std::string, std::string>> all;
  for (unsigned kept = 0; kept < (1U << waiting_.size()); ++kept) {
    Names names = synced_names_;
    for (std::size_t k = 0; k < waiting_.size(); ++k) {
      if ((kept >> k & 1U) == 0) continue;
      if (!waiting_[k].gone.empty()) names.erase(waiting_[k].gone);
      if (!waiting_[k].name.empty()) names[waiting_[k].name] = waiting_[k].file;
    }
    std::vector<std::map<std::string, std::string>> found{{}};
    for (const auto& [name, file] : names) {
      std::vector<std::map<std::string, std::string>> next;
      for (const auto& so_far : found)
        for (const std::string& text : leftovers(*file)) {
          next.push_back(so_far);
          next.back()[name] = text;
        }
      found = std::move(next);
    }
    all.insert(found.begin(), found.end());
  }
  return {all.begin(), all.end()};
}

std::unique_ptr<MemoryDisk> MemoryDisk::holding(const std::map<std::string, std::string>& files) {
  auto disk = std::make_unique<MemoryDisk>();
  for (const auto& [name, text] : files) {
    const auto file = std::make_shared<File>(File{text, text, {}});
    disk->names_[name] = file;
  }
  disk->synced_names_ = disk->names_;
  return disk;
}

}  // namespace aftercut::test

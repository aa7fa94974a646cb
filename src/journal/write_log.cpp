#include "write_log.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <nlohmann/json.hpp>

#include "aftercut/core/folder_lock.hpp"
#include "aftercut/core/save_file.hpp"
#include "entry_json.hpp"

namespace aftercut::journal {
namespace {

namespace fs = std::filesystem;

Issues refused(const fs::path& file, const std::string& doing, const std::string& state) {
  return {{file.string(), "whole file", fmt::format("{}: {}{}", doing, std::strerror(errno), state),
           "a disk that takes the entry",
           "free some space or change the folder's rights, then record it again"}};
}

/// What is new, under its numbers, and the lines that say so.
struct Addition {
  std::vector<Entry> stand;  ///< one for each entry given
  std::string lines;
};

bool says_the_same(Entry a, const Entry& b) {
  a.seq = b.seq;
  a.recorded_at = b.recorded_at;
  return a == b;
}

bool takes_back_a_taking_back(const Entry& e, const std::vector<Entry>& all) {
  if (!e.corrects || !std::holds_alternative<TakenBack>(e.what)) return false;
  const auto at = std::ranges::find(all, *e.corrects, &Entry::seq);
  return at != all.end() && std::holds_alternative<TakenBack>(at->what);
}

Result<Addition> addition_to(const Log& log, const std::vector<Entry>& entries) {
  Addition add;
  Issues issues;
  std::vector<Entry> all = log.entries;
  std::string sum = log.sum;
  for (Entry e : entries) {
    const auto same = std::ranges::find(all, e.id, &Entry::id);
    if (same != all.end()) {
      if (!says_the_same(e, *same))
        issues.push_back({file_name, fmt::format("id {}", e.id), "an entry that says something else",
                          fmt::format("what entry {} of this id says", same->seq),
                          fmt::format("give it an id of its own, or record a correction of {}", same->seq)});
      add.stand.push_back(*same);
      continue;
    }
    e.seq = static_cast<int>(all.size()) + 1;
    if (e.corrects && *e.corrects >= e.seq)
      issues.push_back({file_name, "corrects", fmt::format("{}", *e.corrects),
                        all.empty() ? "no correction: the journal is empty"
                                    : fmt::format("the number of an entry, 1 to {}", all.size()),
                        "look the number up with aftercut record FARM --list"});
    if (takes_back_a_taking_back(e, all))
      issues.push_back({file_name, "corrects", fmt::format("{}, which takes an entry back", *e.corrects),
                        "the number of what was done or seen", "record that again instead"});
    const Issues faults =
        format_faults(e, entries.size() == 1 ? "entry" : fmt::format("entry {}", add.stand.size() + 1));
    issues.insert(issues.end(), faults.begin(), faults.end());
    if (issues.empty()) {
      Line line = line_of(sum, e);
      add.lines += line.text;
      sum = std::move(line.sum);
    }
    all.push_back(e);
    add.stand.push_back(e);
  }
  if (!issues.empty()) return issues;
  return add;
}

/// The torn bytes as a file of their own.
Result<fs::path> put_aside(Disk& disk, const fs::path& folder, const std::string& torn) {
  for (int n = 1;; ++n) {
    const fs::path file = folder / fmt::format("journal.torn-{}.txt", n);
    const auto there = disk.read(file);
    if (!there.ok()) return there.issues();
    if (!there.value()) return save_file(file, torn, disk);
  }
}

/// The journal's file, open at its end.
class OpenLog {
 public:
  OpenLog(Disk& disk, const fs::path& file) : disk_{disk}, fd_{disk.open(file, Disk::Open::append)} {}
  OpenLog(const OpenLog&) = delete;
  OpenLog& operator=(const OpenLog&) = delete;
  ~OpenLog() {
    if (fd_ >= 0) disk_.close(fd_);  // all that counts is synced by then
  }
  [[nodiscard]] bool open() const { return fd_ >= 0; }
  bool write(std::string_view lines) { return lines.empty() || write_all(disk_, fd_, lines); }
  bool sync() { return disk_.sync(fd_) == 0; }
  bool cut_to(std::size_t size) { return disk_.cut(fd_, size) == 0 && sync(); }

 private:
  Disk& disk_;
  int fd_;
};

Issues write_lines(Disk& disk, const fs::path& folder, const Log& log, const std::string& lines) {
  const fs::path file = folder / file_name;
  OpenLog open{disk, file};
  if (!open.open()) return refused(file, "could not open", "");
  if (!log.torn.empty() && !open.cut_to(log.whole_bytes))
    return refused(file, "could not cut a torn line off", "");
  // The folder is synced every time: the file may be one that another program made and did not live to sync.
  const bool written = open.write(lines);
  if (written && open.sync() && sync_path(disk, folder, Disk::Open::folder)) return {};
  const int why = errno;
  const bool as_before = open.cut_to(log.whole_bytes);
  errno = why;
  return refused(file, written ? "could not sync" : "could not write",
                 as_before ? "" : "; what was written of it could not be taken off again");
}

}  // namespace

Issues format_faults(Entry entry, const std::string& place) {
  entry.seq = std::max(entry.seq, 1);
  try {
    return entry_of(Json::parse(json_of(entry).dump()), file_name, place).issues();
  } catch (const nlohmann::json::exception&) {
    return {{file_name, place, "bytes that are not UTF-8", "text in UTF-8", "write it again"}};
  }
}

Result<std::vector<Entry>> append_alone(Disk& disk, const fs::path& folder,
                                        const std::vector<Entry>& entries) {
  const auto log = read_log(folder, disk);
  if (!log.ok()) return log.issues();
  auto addition = addition_to(log.value(), entries);
  if (!addition.ok()) return addition.issues();
  if (!log.value().torn.empty()) {
    const auto aside = put_aside(disk, folder, log.value().torn);
    if (!aside.ok()) return aside.issues();
  }
  Issues issues = write_lines(disk, folder, log.value(), addition.value().lines);
  if (!issues.empty()) return issues;
  return std::move(addition).value().stand;
}

Result<std::vector<Entry>> append_all(const fs::path& folder, const std::vector<Entry>& entries) {
  const auto lock = FolderLock::take(folder, patience_ms);
  if (!lock.ok()) return lock.issues();
  return append_alone(real_disk(), folder, entries);
}

Result<Entry> append(const fs::path& folder, const Entry& entry) {
  auto stand = append_all(folder, {entry});
  if (!stand.ok()) return stand.issues();
  return std::move(stand).value().front();
}

}  // namespace aftercut::journal

#include "out_folder.hpp"

#include "aftercut/core/left_behind.hpp"
#include "aftercut/core/mixed_files.hpp"
#include "aftercut/core/save_file.hpp"

namespace aftercut::report {
namespace {

namespace fs = std::filesystem;

Issues refused(const fs::path& path, const std::string& what) {
  return {Issue{path.string(), "output folder", what, "a folder that can be written to",
                "choose another folder, free some space or change its rights"}};
}

// A folder that is gone when the value goes, with everything in it.
class Aside {
 public:
  explicit Aside(fs::path path) : path_{std::move(path)} {}
  Aside(const Aside&) = delete;
  Aside& operator=(const Aside&) = delete;
  ~Aside() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

// Puts back what stood in `out` before: the files named, and then nothing of ours is left there.
void put_back(const std::vector<std::string>& moved, const fs::path& old, const fs::path& out) {
  for (const std::string& name : moved) {
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(old / name, ignored)))
      fs::rename(old / name, out / name, ignored);
    else
      fs::remove(out / name, ignored);
  }
}

/// Moves away what stood there. Where a new file takes its place it gets a second name instead, and stands
/// there until then, if the file system has such names.
std::error_code keep(const fs::path& file, const fs::path& old, bool replaced) {
  std::error_code error;
  if (replaced && fs::is_regular_file(fs::symlink_status(file, error))) {
    fs::create_hard_link(file, old, error);
    if (!error) return error;
  }
  fs::rename(file, old, error);
  return error;
}

Issues move_each(const std::vector<std::string>& names, const fs::path& from, const fs::path& out) {
  const fs::path old = from / "old";
  std::error_code error, unused;
  fs::create_directory(old, error);
  if (error) return refused(out, error.message());
  std::vector<std::string> moved;
  for (const std::string& name : names) {
    if (fs::exists(fs::symlink_status(out / name, unused)))
      error = keep(out / name, old / name, fs::exists(from / name, unused));
    if (!error) moved.push_back(name);
    if (!error && (!fs::exists(from / name, unused) || put_in_place(from / name, out / name).ok())) continue;
    put_back(moved, old, out);
    return refused(out / name, error ? error.message() : "a file that could not be moved in");
  }
  return {};
}

/// The mark of a mixed folder stands meanwhile; one that stood before goes once all is in.
Issues move_in(const std::vector<std::string>& names, const fs::path& from, const fs::path& out) {
  const bool mixed_before = !mixed_files(out).empty();
  Issues issues = mark_moving(out);
  if (!issues.empty()) return issues;
  issues = move_each(names, from, out);
  if (issues.empty()) return take_mark_away(out);
  if (!mixed_before) take_mark_away(out);  // what stood there is back; the first trouble is the one to tell
  return issues;
}

}  // namespace

Result<fs::path> write_folder(const fs::path& out, const std::vector<std::string>& names,
                              const std::function<Issues(const fs::path& folder)>& write_files) {
  std::error_code error;
  const fs::path target = fs::absolute(out, error).lexically_normal();
  const fs::path folder = target.has_filename() ? target : target.parent_path();
  if (fs::exists(folder, error) && !fs::is_directory(folder, error))
    return refused(out, "a file of that name");
  const bool there = fs::exists(folder, error);
  fs::create_directories(folder.parent_path(), error);
  if (error) return refused(out, error.message());
  const std::string hidden = "." + folder.filename().string();
  remove_left_behind(folder.parent_path(), hidden);
  const Aside aside{part_beside(folder.parent_path() / hidden)};
  fs::remove_all(aside.path(), error);  // of an older process that had the same number
  fs::create_directory(aside.path(), error);
  if (error) return refused(out, error.message());
  Issues issues = write_files(aside.path());
  if (!issues.empty()) return issues;
  if (there) {
    issues = move_in(names, aside.path(), folder);
    if (!issues.empty()) return issues;
    return out;
  }
  const auto placed = put_in_place(aside.path(), folder);
  if (!placed.ok()) return placed.issues();
  return out;
}

}  // namespace aftercut::report

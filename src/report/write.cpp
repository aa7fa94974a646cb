// All outputs, or none of them: written into a folder beside, then moved in; what stood there comes back when
// a move fails.

#include <unistd.h>

#include "aftercut/core/save_file.hpp"
#include "aftercut/report/report.hpp"
#include "layers.hpp"

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

template <class T>
void gather(Issues& issues, const Result<T>& result) {
  const Issues found = result.issues();
  issues.insert(issues.end(), found.begin(), found.end());
}

Issues write_files(const farm::Problem& problem, const plan::PlannedYears& planned, const audit::Audit& audit,
                   const fs::path& folder) {
  const std::string plan = plan_json(problem, planned, audit);
  const geo::LayerToWrite layer = fields_layer(problem, planned);
  Issues issues;
  gather(issues, save_file(folder / "plan.json", plan));
  gather(issues, save_file(folder / "plan-years.jsonl", years_jsonl(problem, planned)));
  gather(issues, save_file(folder / "report.html", report_html(plan, problem.farm)));
  gather(issues, save_file(folder / "work.csv", work_csv(problem, planned)));
  gather(issues, geo::write_geojson(folder / "fields.geojson", layer));
  gather(issues, geo::write_geopackage(folder / "fields.gpkg", {layer}));
  return issues;
}

const std::vector<const char*>& file_names() {
  static const std::vector<const char*> names{"plan-years.jsonl", "report.html", "work.csv",
                                              "fields.geojson",   "fields.gpkg", "plan.json"};
  return names;
}

// Puts back what stood in `out` before: the files named, and then nothing of ours is left there.
void put_back(const std::vector<const char*>& moved, const fs::path& old, const fs::path& out) {
  for (const char* name : moved) {
    std::error_code ignored;
    fs::remove(out / name, ignored);
    fs::rename(old / name, out / name, ignored);
  }
}

// Moves the finished files in, plan.json last.
Issues move_in(const fs::path& from, const fs::path& out) {
  const fs::path old = from / "old";
  std::error_code error, unused;
  fs::create_directory(old, error);
  if (error) return refused(out, error.message());
  std::vector<const char*> moved;
  for (const char* name : file_names()) {
    if (fs::exists(fs::symlink_status(out / name, unused))) fs::rename(out / name, old / name, error);
    if (!error) moved.push_back(name);
    if (!error && put_in_place(from / name, out / name).ok()) continue;
    put_back(moved, old, out);
    return refused(out / name, error ? error.message() : "a file that could not be moved in");
  }
  return {};
}

}  // namespace

Result<fs::path> write(const farm::Problem& problem, const plan::PlannedYears& planned,
                       const audit::Audit& audit, const fs::path& out) {
  std::error_code error;
  const fs::path target = fs::absolute(out, error).lexically_normal();
  const fs::path folder = target.has_filename() ? target : target.parent_path();
  if (fs::exists(folder, error) && !fs::is_directory(folder, error))
    return refused(out, "a file of that name");
  const bool there = fs::exists(folder, error);
  fs::create_directories(folder.parent_path(), error);
  if (error) return refused(out, error.message());
  const Aside aside{folder.parent_path() /
                    fmt::format(".{}.{}.part", folder.filename().string(), ::getpid())};
  fs::create_directory(aside.path(), error);
  if (error) return refused(out, error.message());
  Issues issues = write_files(problem, planned, audit, aside.path());
  if (!issues.empty()) return issues;
  if (there) {
    issues = move_in(aside.path(), folder);
    if (!issues.empty()) return issues;
    return out;
  }
  const auto placed = put_in_place(aside.path(), folder);
  if (!placed.ok()) return placed.issues();
  return out;
}

}  // namespace aftercut::report

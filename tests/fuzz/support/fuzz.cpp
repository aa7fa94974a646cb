#include "fuzz.hpp"

#include <cpl_string.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "aftercut/core/save_file.hpp"

/// The sanitizer's stores of freed memory and of call stacks are kept small: they take more time than the
/// reading.
extern "C" const char*
__asan_default_options() {  // NOLINT(bugprone-reserved-identifier): asked for by this name
  return "malloc_context_size=6:quarantine_size_mb=16";
}

/// UDUNITS' scanner loses a word of a unit that it cannot parse: a few bytes of a library, once for each such
/// unit in a farm folder.
extern "C" const char*
__lsan_default_suppressions() {  // NOLINT(bugprone-reserved-identifier): asked for by this name
  return "leak:utlex\n";
}

namespace aftercut::fuzz {
namespace {

namespace fs = std::filesystem;

fs::path place_in_memory() {
  std::error_code error;
  const fs::path memory{"/dev/shm"};
  return fs::is_directory(memory, error) ? memory : fs::temp_directory_path();
}

void check_day(const weather::Day& d) {
  for (const double x : {d.tmin_c, d.tmax_c, d.rain_mm, d.ea_kpa, d.wind_2m_m_s, d.solar_mj_m2})
    must(std::isfinite(x), "a day of weather is finite");
}

void check_path(const geo::Path& path) {
  for (const geo::Point& p : path) must(std::isfinite(p.x) && std::isfinite(p.y), "a point is finite");
}

void check_field(const farm::Field& f) {
  must(std::isfinite(f.area.value()) && f.area.value() > 0.0, "a field has an area");
  must(std::isfinite(f.straw_load.value()) && f.straw_load.value() >= 0.0, "a straw load is a number");
  must(std::isfinite(f.cut_height_cm), "a cut height is finite");
  for (const geo::Polygon& p : f.shape.polygons) {
    check_path(p.outer);
    for (const geo::Path& hole : p.holes) check_path(hole);
  }
}

/// What is made of the farm as one text: its inputs' digests, notes and figures.
std::string checked(const farm::Problem& p) {
  std::string out;
  for (const auto& i : p.farm.inputs) out += i.path + " " + i.sha256 + "\n";
  for (const std::string& note : p.farm.notes) out += note + "\n";
  for (const farm::Field& f : p.farm.fields) {
    check_field(f);
    out += fmt::format("{} {} {}\n", f.id.value, f.area.value(), f.straw_load.value());
  }
  for (const weather::Day& d : p.record.days) check_day(d);
  for (const weather::Year& y : p.years.years) {
    for (const weather::Day& d : y.days) check_day(d);
    for (const double et0 : y.et0_mm) must(std::isfinite(et0), "evapotranspiration is finite");
    out += fmt::format("{} {}\n", y.year, y.days.size());
  }
  return out;
}

}  // namespace

std::string text_of(const std::uint8_t* data, std::size_t size) {
  return size == 0 ? std::string{} : std::string{reinterpret_cast<const char*>(data), size};
}

void must(bool holds, const std::string& words) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", words.c_str());
  std::abort();
}

std::string checked(const Issues& issues) {
  must(!issues.empty(), "a failed result has an issue");
  std::string all;
  for (const Issue& i : issues) {
    const std::string text = to_text(i);
    must(!i.file.empty() && !i.place.empty() && !i.found.empty() && !i.expected.empty() && !i.fix.empty(),
         "an issue is whole: " + text);
    must(CPLIsUTF8(text.c_str(), static_cast<int>(text.size())) != 0, "an issue is UTF-8 text: " + text);
    all += text + "\n";
  }
  return all;
}

bool read_twice(const std::string& bytes) {
  unsigned sum = 0;
  for (const char c : bytes) sum = sum * 31U + static_cast<unsigned char>(c);
  return sum % 8U == 0;
}

FarmFolder::FarmFolder(const std::string& target)
    : path_{place_in_memory() / fmt::format("aftercut_fuzz_{}_{}", target, ::getpid())} {
  fs::remove_all(path_);
  fs::copy(fs::path{AFTERCUT_SOURCE_DIR} / "tests/fuzz/farm", path_);
}
FarmFolder::~FarmFolder() { fs::remove_all(path_); }

void FarmFolder::put(const std::string& name, const std::string& bytes) const {
  std::ofstream{path_ / name, std::ios::binary} << bytes;
}

void FarmFolder::put_farm(const std::string& piece, const std::string& instead) const {
  std::string text = read_file(path_ / "farm.json").value();
  const std::size_t at = text.find(piece);
  must(at != std::string::npos, "the fixed farm.json has " + piece);
  put("farm.json", text.replace(at, piece.size(), instead));
}

void read_and_check(const FarmFolder& folder, const std::string& bytes, const farm::ReadOptions& options) {
  const auto told = [&] {
    const Result<farm::Problem> read = farm::read(folder.path(), options);
    return read.ok() ? checked(read.value()) : checked(read.issues());
  };
  const std::string once = told();
  if (read_twice(bytes)) must(told() == once, "the same bytes are read the same");
}

}  // namespace aftercut::fuzz

#include "aftercut/core/mixed_files.hpp"

#include "aftercut/core/save_file.hpp"

namespace aftercut {
namespace {

namespace fs = std::filesystem;

constexpr const char* words =
    "New files were being moved into this folder when aftercut ended, or are being moved now.\n"
    "Until that is done, files of two plans stand here side by side, each of them whole.\n"
    "Plan again into this folder; then this file goes.\n";

}  // namespace

Issues mark_moving(const fs::path& folder) { return save_file(folder / moving_mark, words).issues(); }

Issues take_mark_away(const fs::path& folder) {
  std::error_code error;
  fs::remove(folder / moving_mark, error);
  if (!error && sync_path(real_disk(), folder, Disk::Open::folder)) return {};
  return {{(folder / moving_mark).string(), "whole file", "a file that could not be removed",
           "a folder that can be written to", "remove it, or change the folder's rights and plan again"}};
}

Issues mixed_files(const fs::path& folder) {
  std::error_code ignored;
  if (!fs::exists(folder / moving_mark, ignored)) return {};
  return {{folder.empty() ? "." : folder.string(), "whole folder",
           "files of two plans: the last one was not moved in to its end", "the files of one plan",
           "plan again into this folder, or wait where another program does so"}};
}

}  // namespace aftercut

#pragma once
// All files of an output folder, or none of them. Internal to the room.

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "aftercut/core/result.hpp"

namespace aftercut::report {

/// Writes into a folder beside `out` by `write_files`, then moves the files named into `out`, the last name
/// last; one that was not written is taken away in `out`. When a move fails, what stood there comes back.
Result<std::filesystem::path> write_folder(
    const std::filesystem::path& out, const std::vector<std::string>& names,
    const std::function<Issues(const std::filesystem::path& folder)>& write_files);

template <class T>
void gather(Issues& issues, const Result<T>& result) {
  const Issues found = result.issues();
  issues.insert(issues.end(), found.begin(), found.end());
}

}  // namespace aftercut::report

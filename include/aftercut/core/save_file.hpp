#pragma once
// Files that are whole or absent: written beside, synced, renamed, and the folder synced.

#include <filesystem>
#include <string_view>

#include "aftercut/core/disk.hpp"
#include "aftercut/core/result.hpp"

namespace aftercut {

/// Writes `text` to `path`. An issue (nothing changed at `path`) when the disk refuses.
Result<std::filesystem::path> save_file(const std::filesystem::path& path, std::string_view text,
                                        Disk& disk = real_disk());

/// Moves a finished file to its place: synced, renamed, folder synced.
Result<std::filesystem::path> put_in_place(const std::filesystem::path& finished,
                                           const std::filesystem::path& path, Disk& disk = real_disk());

/// The whole file as bytes, or an issue that says why it could not be read.
Result<std::string> read_file(const std::filesystem::path& path);

/// The issue of what is neither a file on a disk nor a folder.
Issue no_plain_file(const std::filesystem::path& path);

}  // namespace aftercut

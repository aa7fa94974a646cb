#pragma once
// A mark in a folder while a new set of files is moved into it, one after the other: a program that is killed
// then leaves files of two sets side by side, each whole, and the mark with them.

#include <filesystem>

#include "aftercut/core/result.hpp"

namespace aftercut {

/// Its name; for people it says what is the matter.
inline constexpr const char* moving_mark = "unfinished.txt";

/// The mark stands from now on. An issue when the disk refuses.
Issues mark_moving(const std::filesystem::path& folder);
/// All files are of one set again. An issue when the disk refuses.
Issues take_mark_away(const std::filesystem::path& folder);
/// An issue where the mark stands in `folder`.
Issues mixed_files(const std::filesystem::path& folder);

}  // namespace aftercut

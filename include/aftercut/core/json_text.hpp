#pragma once
// What is wrong with a text that should be JSON, before anything of it is read.

#include <cstddef>
#include <string>
#include <string_view>

#include "aftercut/core/result.hpp"

namespace aftercut {

/// Lists and objects within one another in a file of ours. A program that follows a value goes as deep as it
/// is nested.
inline constexpr std::size_t deepest_json = 64;

/// Cut short, not JSON, not UTF-8, a number beyond a double's, nested too deep: the first of these, with line
/// and column. Or every key that comes twice in one object. Empty: the text can be read.
Issues json_text_faults(std::string_view text, const std::string& file);

/// A parser's own words, which quote bytes as they came: each that is not ASCII as a question mark.
std::string in_ascii(std::string words);

}  // namespace aftercut

#pragma once
// Text as wide as a terminal shows it. Header only.

#include <algorithm>
#include <sstream>
#include <string>

namespace aftercut::test {

/// Characters, not bytes.
inline std::size_t characters(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(
      line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

inline std::size_t longest_line(const std::string& text) {
  std::size_t longest = 0;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) longest = std::max(longest, characters(line));
  return longest;
}

}  // namespace aftercut::test

#include "aftercut/core/result.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace aftercut {

std::string shortened(const std::string& text) {
  constexpr std::size_t longest = 60;  // bytes
  std::size_t keep = std::min(text.size(), longest);
  while (keep < text.size() && keep > 0 && (static_cast<unsigned char>(text[keep]) & 0xC0U) == 0x80U) --keep;
  return keep < text.size() ? text.substr(0, keep) + "..." : text;
}

std::string to_text(const Issue& i) {
  std::string text =
      fmt::format("{}: {}: found {}; expected {}; fix: {}", i.file, i.place, i.found, i.expected, i.fix);
  std::ranges::replace_if(
      text, [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7F; }, '?');
  return text;
}

}  // namespace aftercut

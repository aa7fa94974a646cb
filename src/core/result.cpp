#include "aftercut/core/result.hpp"

#include <fmt/format.h>

namespace aftercut {

std::string to_text(const Issue& i) {
  return fmt::format("{}: {}: found {}; expected {}; fix: {}", i.file, i.place, i.found, i.expected, i.fix);
}

}  // namespace aftercut

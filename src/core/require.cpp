#include "aftercut/core/require.hpp"

#include <fmt/format.h>

namespace aftercut {

void fail(std::string_view text, std::source_location where) {
  throw InternalError{
      fmt::format("{} ({}:{}, {})", text, where.file_name(), where.line(), where.function_name())};
}

}  // namespace aftercut

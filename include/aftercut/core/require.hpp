#pragma once
// Conditions that only our own mistakes can break. Always on, in release builds too.

#include <source_location>
#include <stdexcept>
#include <string>
#include <string_view>

namespace aftercut {

/// Our own fault: ends the program with exit code 3 and the place in the source.
class InternalError : public std::logic_error {
  using std::logic_error::logic_error;
};

[[noreturn]] void fail(std::string_view text, std::source_location where = std::source_location::current());

/// Throws InternalError with `text` and the caller's place when `condition` does not hold.
inline void require(bool condition, std::string_view text,
                    std::source_location where = std::source_location::current()) {
  if (!condition) fail(text, where);
}

}  // namespace aftercut

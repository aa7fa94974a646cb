#pragma once
// What time it is: the machine's clock, or the time that a command was told to take for it.

#include "aftercut/app/commands.hpp"
#include "aftercut/journal/write_down.hpp"

namespace aftercut::app {

/// --now, else the clock. Issues: --now is no time.
Result<journal::Now> now_of(const Options& options);

}  // namespace aftercut::app

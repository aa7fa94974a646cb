#pragma once
// Writing without the lock, on any disk. Internal to the room.

#include "aftercut/journal/log.hpp"

namespace aftercut::journal {

/// How long a writer waits for the others: many short ones one after the other.
inline constexpr int patience_ms = 30000;

/// append_all for a caller that alone writes in the folder.
Result<std::vector<Entry>> append_alone(Disk& disk, const std::filesystem::path& folder,
                                        const std::vector<Entry>& entries);

}  // namespace aftercut::journal

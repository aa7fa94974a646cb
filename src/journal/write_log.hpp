#pragma once
// Writing without the lock, on any disk. Internal to the room.

#include "aftercut/journal/log.hpp"

namespace aftercut::journal {

/// append_all for a caller that alone writes in the folder.
Result<std::vector<Entry>> append_alone(Disk& disk, const std::filesystem::path& folder,
                                        const std::vector<Entry>& entries);

}  // namespace aftercut::journal

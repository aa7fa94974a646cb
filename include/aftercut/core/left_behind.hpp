#pragma once
// Files and folders on their way: written beside their place as "NAME.PROCESS.part" (where the name's ending
// counts: ".part-PROCESS-NAME") and moved there once they are whole. A program that was killed leaves them;
// the next writer takes them away.

#include <filesystem>
#include <string>

namespace aftercut {

/// Where this process writes what is to stand at `path`; with the second the name ends as `path` does.
std::filesystem::path part_beside(const std::filesystem::path& path);
std::filesystem::path part_named_alike(const std::filesystem::path& path);

/// Takes away what processes that have ended left in `folder`: of `name`, or with none of anything. What a
/// living process writes stays, and so does what cannot be removed. Processes of other machines or containers
/// that share the folder are not seen as living.
void remove_left_behind(const std::filesystem::path& folder, const std::string& name = {});

}  // namespace aftercut

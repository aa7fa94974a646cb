#pragma once
// What of a job goes out with its progress. Internal to the room.

#include "aftercut/server/desk.hpp"

namespace aftercut::server {

std::string progress_json(const Job& job);

}  // namespace aftercut::server

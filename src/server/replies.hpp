#pragma once
// What the server answers with when it does not answer with a plan. Internal to the room.

#include <nlohmann/json.hpp>
#include <string>

#include "aftercut/core/result.hpp"

namespace aftercut::server {

nlohmann::ordered_json issues_json(const Issues& issues);
/// The one shape of every error: {"error": {"code", "message", "issues"}}.
std::string error_json(const std::string& code, const std::string& message, const Issues& issues = {});

}  // namespace aftercut::server

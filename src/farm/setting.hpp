#pragma once
// Settings put into farm.json's value. Internal to the room.

#include "aftercut/farm/setting.hpp"
#include "json_text.hpp"

namespace aftercut::farm {

/// The document with every setting made, in their order; or an issue for each that leads nowhere.
Result<Json> with_settings_made(Json document, const std::vector<Setting>& settings);

}  // namespace aftercut::farm

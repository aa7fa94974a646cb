#pragma once
// The figures of air, next crop and birds out of plan.json and plan-years.jsonl. Internal to the room.

#include "aftercut/plan/environment.hpp"
#include "aftercut/plan/next_crop.hpp"
#include "json_in.hpp"

namespace aftercut::audit {

plan::Environment read_environment(JsonIn& in, const Json& object, const std::string& place);
burn::Emissions read_emissions(JsonIn& in, const Json& object, const std::string& place);
plan::NextCrop read_next_crop(JsonIn& in, const Json& object, const std::string& place);

}  // namespace aftercut::audit

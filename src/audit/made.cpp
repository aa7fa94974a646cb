#include "aftercut/audit/made.hpp"

#include "aftercut/core/save_file.hpp"
#include "json_in.hpp"

namespace aftercut::audit {
namespace {

std::string word_in(const Json& of, const char* key) {
  return of.is_object() && of.contains(key) && of[key].is_string() ? of[key].get<std::string>() : "";
}

/// Null where there is none.
Json part_in(const Json& of, const char* key) {
  return of.is_object() && of.contains(key) ? of[key] : Json(nullptr);
}

}  // namespace

PlanMade plan_made(const std::string& plan_json) {
  PlanMade made;
  const Json plan = Json::parse(plan_json, nullptr, false);
  made.version = word_in(plan, "version");
  made.as_of = parse_iso_date(word_in(part_in(plan, "farm"), "as_of"));
  if (const Json seed = part_in(plan, "seed"); seed.is_number_unsigned())
    made.seed = seed.get<std::uint64_t>();
  const Json years = part_in(part_in(plan, "weather"), "years"), inputs = part_in(plan, "inputs");
  if (years.is_array())
    for (const Json& year : years)
      if (year.is_number_integer()) made.years.push_back(year.get<int>());
  if (inputs.is_array())
    for (const Json& i : inputs) made.inputs[word_in(i, "path")] = word_in(i, "sha256");
  return made;
}

PlanMade plan_made_in(const std::filesystem::path& plan_json) {
  const auto text = read_file(plan_json);
  return text.ok() ? plan_made(text.value()) : PlanMade{};
}

std::vector<std::string> changed_since(const PlanMade& made, const farm::Farm& farm) {
  std::map<std::string, std::string> now;
  for (const auto& i : farm.inputs) now[i.path] = i.sha256;
  std::vector<std::string> out;
  for (const auto& [path, sum] : now)
    if (const auto was = made.inputs.find(path); was == made.inputs.end() || was->second != sum)
      out.push_back(path);
  for (const auto& [path, sum] : made.inputs)
    if (!now.contains(path)) out.push_back(path);
  return out;
}

}  // namespace aftercut::audit

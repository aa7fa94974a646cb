#include "aftercut/farm/region.hpp"

#include <algorithm>

#include "aftercut/core/ids.hpp"
#include "aftercut/core/save_file.hpp"
#include "object.hpp"

namespace aftercut::farm {
namespace {

const char* const region_json = "region.json";
constexpr double s_per_day = 86400.0;

void check_keys(const Object& o, const std::vector<std::string>& known) {
  if (!o.json().is_object()) return;
  for (const auto& [key, value] : o.json().items())
    if (std::ranges::find(known, key) == known.end())
      o.fault(key, in_quotes(key), "one of " + listed(known),
              did_you_mean(key, known, "take the key out or mend it"));
}

bool holds_farm(const std::filesystem::path& folder) {
  std::error_code none;
  return std::filesystem::is_regular_file(folder / "farm.json", none);
}

/// Every folder with a farm.json in the folder named.
std::vector<std::string> farms_inside(const Object& top, const std::filesystem::path& folder,
                                      const std::string& name) {
  std::vector<std::string> farms;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator{folder / name, error})
    if (holds_farm(entry.path())) farms.push_back(name + "/" + entry.path().filename().string());
  if (farms.empty())
    top.fault("farms", in_quotes(name), "a folder that holds farm folders, each with farm.json",
              "name the folder in which the farm folders lie, or list them");
  std::ranges::sort(farms, natural_less);
  return farms;
}

std::vector<std::string> farms_of(const Object& top, const std::filesystem::path& folder) {
  if (top.has("farms") && top.json().at("farms").is_string())
    return farms_inside(top, folder, top.text("farms").value_or(""));
  std::vector<std::string> farms = top.texts("farms");
  if (farms.empty() && !top.faults().any())
    top.fault("farms", "none", "farm folders: a list, or the folder in which they lie",
              "write \"farms\": \"farms\"");
  for (std::size_t k = 0; k < farms.size(); ++k) {
    if (!holds_farm(folder / farms[k]))
      top.fault("farms[" + std::to_string(k) + "]", in_quotes(farms[k]), "a folder with farm.json",
                "mend the path: it counts from the region's folder");
    if (std::count(farms.begin(), farms.begin() + static_cast<std::ptrdiff_t>(k), farms[k]) > 0)
      top.fault("farms[" + std::to_string(k) + "]", in_quotes(farms[k]) + " twice", "each farm once",
                "take one of the two out");
  }
  std::ranges::sort(farms, natural_less);
  return farms;
}

}  // namespace

Result<RegionFolder> read_region(const std::filesystem::path& folder) {
  const auto text = read_file(folder / region_json);
  if (!text.ok()) return text.issues();
  const auto value = parse_json(text.value(), region_json);
  if (!value.ok()) return value.issues();
  Faults faults;
  const Object top{value.value(), {region_json, ""}, faults};
  if (!value.value().is_object())
    return Issues{{region_json, "the whole file", "no object", "{\"name\": ..., \"farms\": ...}",
                   "see docs/region.md"}};
  check_keys(top, {"name", "currency", "farms", "burning", "canal", "note"});
  const Object burning = top.child("burning"), canal = top.child("canal");
  check_keys(burning, {"authority", "area_per_day", "area_per_season", "note"});
  check_keys(canal, {"name", "most_flow", "note"});
  RegionFolder r;
  r.name = top.text_or("name", folder.filename().string());
  r.currency = top.text_or("currency", "USD");
  r.authority = burning.text_or("authority", "the burn authority");
  r.canal = canal.text_or("name", "the canal");
  r.limits.burn_day_ha = burning.quantity("area_per_day", "ha", {0.0, 1e6});
  r.limits.burn_season_ha = burning.quantity("area_per_season", "ha", {0.0, 1e7});
  if (const auto flow = canal.quantity("most_flow", "m3/day", {0.0, 1e9}))
    r.limits.flow_m3_s = *flow / s_per_day;
  r.farms = farms_of(top, folder);
  if (faults.any()) return faults.sorted();
  return r;
}

}  // namespace aftercut::farm

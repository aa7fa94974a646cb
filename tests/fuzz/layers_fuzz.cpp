// The field layer of a small fixed farm in other formats than GeoJSON: the first line names the format.

#include <algorithm>
#include <array>

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace aftercut::fuzz;
  static constexpr std::array formats{"csv", "fgb", "gml", "gpx", "json", "kml", "shz", "tab", "dxf"};
  static const FarmFolder folder{"layers"};
  const std::string bytes = text_of(data, size);
  const std::size_t end = bytes.find('\n');
  if (end == std::string::npos || end > 4) return -1;
  const std::string format = bytes.substr(0, end);
  if (std::find(formats.begin(), formats.end(), format) == formats.end()) return -1;
  static std::string before = "fields.geojson";
  const std::string name = "fields." + format;
  folder.put_farm("\"" + before + "\"", "\"" + name + "\"");
  before = name;
  folder.put(name, bytes.substr(end + 1));
  read_and_check(folder, bytes, {.fit_implements = false});
  std::filesystem::remove(folder.path() / name);
  return 0;
}

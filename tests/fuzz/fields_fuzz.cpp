// The field layer of a small fixed farm as GeoJSON.

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace aftercut::fuzz;
  static const FarmFolder folder{"fields"};
  const std::string bytes = text_of(data, size);
  folder.put("fields.geojson", bytes);
  read_and_check(folder, bytes);
  return 0;
}

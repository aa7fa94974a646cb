// farm.json inside a small fixed folder.

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace aftercut::fuzz;
  static const FarmFolder folder{"farm_json"};
  const std::string bytes = text_of(data, size);
  // Another folder's files are not this target's business.
  if (bytes.find("../") != std::string::npos || bytes.find("\"/") != std::string::npos) return -1;
  folder.put("farm.json", bytes);
  read_and_check(folder, bytes);
  return 0;
}

// The weather record of a small fixed farm.

#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace aftercut::fuzz;
  static const FarmFolder folder{"weather"};
  const std::string bytes = text_of(data, size);
  folder.put("weather.csv", bytes);
  read_and_check(folder, bytes, {.fit_implements = false});
  return 0;
}

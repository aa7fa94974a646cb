// A scenario file: read, written and read back; and the small fixed farm under its changes.

#include "aftercut/farm/change.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace aftercut;
  static const fuzz::FarmFolder folder{"scenario"};
  const std::string bytes = fuzz::text_of(data, size);
  const auto read = farm::read_scenario(bytes, "scenario.json");
  if (!read.ok()) {
    fuzz::must(
        fuzz::checked(farm::read_scenario(bytes, "scenario.json").issues()) == fuzz::checked(read.issues()),
        "the same bytes are read the same");
    return 0;
  }
  const std::string written = farm::scenario_text(read.value());
  const auto again = farm::read_scenario(written, "scenario.json");
  fuzz::must(again.ok() && again.value() == read.value(), "a scenario written and read back is the same");
  fuzz::must(farm::scenario_text(again.value()) == written, "a scenario is written the same");
  // A setting can name any file; another folder's are not this target's business.
  if (bytes.find("..") != std::string::npos || bytes.find('/') != std::string::npos) return 0;
  fuzz::read_and_check(folder, bytes, {.fit_implements = false, .scenario = read.value()});
  return 0;
}

// The field layer of a small fixed farm as a GeoPackage with faults: the input says what is changed in a
// sound one. Four bytes a change: where (three bytes, lowest first) and what; bytes that are left over cut
// the file short.

#include "aftercut/core/save_file.hpp"
#include "aftercut/geo/layer.hpp"
#include "fuzz.hpp"

namespace {

using namespace aftercut;

std::string sound_package(const fuzz::FarmFolder& folder) {
  const auto fields = geo::read_layer(folder.path() / "fields.geojson");
  geo::LayerToWrite layer{"fields", {{"id", 't'}, {"harvest", 't'}, {"straw_load", 't'}}, {}};
  for (geo::Feature f : fields.value().features) {
    f.values = {{"id", f.values["id"]}, {"harvest", "2026-09-12"}, {"straw_load", "6.9 t/ha"}};
    layer.features.push_back(f);
  }
  const auto written = geo::write_geopackage(folder.path() / "sound.gpkg", {layer});
  fuzz::must(written.ok(), "the sound package is written");
  folder.put_farm("fields.geojson", "fields.gpkg");
  return read_file(written.value()).value();
}

std::string changed(std::string package, const std::string& changes) {
  std::size_t i = 0;
  const auto byte = [&](std::size_t at) {
    return static_cast<std::size_t>(static_cast<unsigned char>(changes[at]));
  };
  for (; i + 4 <= changes.size(); i += 4)
    package[(byte(i) + 256 * byte(i + 1) + 65536 * byte(i + 2)) % package.size()] = changes[i + 3];
  std::size_t cut = 0;
  for (; i < changes.size(); ++i) cut = 256 * cut + byte(i);
  package.resize(package.size() - cut % package.size());
  return package;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::FarmFolder folder{"geopackage"};
  static const std::string package = sound_package(folder);
  const std::string bytes = fuzz::text_of(data, size);
  folder.put("fields.gpkg", changed(package, bytes));
  fuzz::read_and_check(folder, bytes, {.fit_implements = false});
  return 0;
}

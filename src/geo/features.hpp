#pragma once
// Inside room geo: one layer's features, brought to WGS 84, with the issues of each.

#include <ogr_spatialref.h>
#include <ogrsf_frmts.h>

#include <filesystem>
#include <memory>

#include "aftercut/geo/layer.hpp"

namespace aftercut::geo {

struct DeleteTransformation {
  void operator()(OGRCoordinateTransformation* t) const { OGRCoordinateTransformation::DestroyCT(t); }
};

/// From a layer's reference system to longitude and latitude on WGS 84.
struct ToWgs84 {
  const OGRSpatialReference* from = nullptr;  ///< the layer's own
  std::unique_ptr<OGRCoordinateTransformation, DeleteTransformation> change;
};

/// One feature with its attributes and shape, or what is wrong with it.
Result<Feature> feature_of(const OGRFeature& feature, int row, const ToWgs84& to,
                           const std::filesystem::path& file);

}  // namespace aftercut::geo

// The section [points]: a surveyor's file whose points may stand for places. Its table: points_fields.hpp.
#pragma once

#include <optional>

#include "geometry/layout/given.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

struct PointsFile {
  Words file;  ///< as written; relative to the layout file's directory
  Given<PointsOrder> order;
  Given<PointsUnit> unit;
  std::optional<Real> target_offset_m;  ///< of all points
  Place place{};
};

}  // namespace fairlead

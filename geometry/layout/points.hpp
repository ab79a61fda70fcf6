// The section [points]: a surveyor's file whose points may stand for places. Its table: points_fields.hpp.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "geometry/layout/given.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

struct PointsFile {
  Words file;  ///< as written; relative to the layout file's directory
  Given<PointsOrder> order;
  Given<PointsUnit> unit;
  std::optional<Real> target_offset_m;  ///< of all points
  /// Points of the file that no key names, in its order: pegs that a crew may pull tapes from. Shared by all copies of
  /// a layout, for a survey may have a million.
  std::shared_ptr<const std::vector<SurveyPoint>> pegs = std::make_shared<const std::vector<SurveyPoint>>();
  Place place{};
};

}  // namespace fairlead

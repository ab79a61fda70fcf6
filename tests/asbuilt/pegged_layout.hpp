// The demo with pegs around its arrest end.
#pragma once

#include <memory>

#include "tests/demo_layout.hpp"

namespace fairlead {

/// The pegs are invented like the site.
inline Layout pegged_layout() {
  Layout layout = demo_layout();
  layout.points = PointsFile{};
  layout.points->pegs =
      std::make_shared<const std::vector<SurveyPoint>>(std::vector<SurveyPoint>{{"N1", {1340, 925, 326.1}, "", 1},
                                                                                {"N2", {1352, 898, 326.4}, "", 2},
                                                                                {"N3", {1366, 935, 327.2}, "", 3},
                                                                                {"N4", {1378, 917, 331.5}, "", 4},
                                                                                {"N5", {1355, 921, 338.0}, "", 5}});
  return layout;
}

}  // namespace fairlead

// How far the marks may be off: each by itself, and all of them at once.
#pragma once

#include <array>

#include "geometry/studies/tolerance_box.hpp"
#include "geometry/studies/windows.hpp"

namespace fairlead {

struct Placement {
  std::vector<SetOutPoint> points;
  std::vector<PointAxis> axes;     ///< of the variables of windows and box, in their order
  std::optional<Windows> windows;  ///< absent until asked for
  Solved<ToleranceBox> box = unsolved("not asked for");

  /// What the box allows a point along, across and up, either way; none where it is not set out that way.
  std::array<std::optional<double>, 3> allowed_m(std::size_t point) const;
};

Placement placement(const Judged&, bool with_windows, const Work&);

}  // namespace fairlead

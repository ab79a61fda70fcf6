// What a hanging rider can reach as one convex shape, however the layout gives it.
#pragma once

#include <optional>
#include <vector>

#include "geometry/layout/riders.hpp"

namespace fairlead {

/// Everything within `margin_m` of the hull of `corners`: along toward the landing, across to the left and up from the
/// rider trolley's wheel, hanging upright.
///
/// An envelope is its box. Reach figures are the hull of three eight-sided outlines, each around the two half ellipses
/// that forward, back and side span: at the lowest reach and a step above the shoulders as wide as they are, at the
/// highest reach smaller by tan(22.5 deg). So it holds the ellipsoid that the arms sweep above the shoulders, and a
/// straight drum below them.
struct RiderShape {
  std::vector<Vec3> corners;
  double margin_m{};
  std::optional<Real> sideways_rad;
};
std::optional<RiderShape> shape_of(const Riders&);

/// The box around it, margin included. Its width is twice what lies farthest to either side; so is its length.
struct RiderExtents {
  double width_m{}, length_m{}, above_m{}, below_m{};
};
RiderExtents box_around(const RiderShape&);

}  // namespace fairlead

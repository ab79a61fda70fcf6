// Simple solids of a site and of the rig. Site frame, metres.
#pragma once

#include <variant>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::solids {

/// A straight stretch.
struct Segment {
  Point3 from, to;
  bool operator==(const Segment&) const = default;
};

/// A box of any attitude.
struct Box {
  Point3 centre;
  Vec3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};  ///< its axes: unit, square to each other
  Vec3 half_m;                              ///< half its size along them, >= 0
  bool operator==(const Box&) const = default;
};

/// A cylinder with flat ends: a post, or a sheave.
struct Post {
  Point3 from, to;  ///< ends of its axis, apart
  double radius_m{};
  bool operator==(const Post&) const = default;
};

/// All that lies on the other side of a plane from its normal.
struct Plane {
  Point3 through;
  Vec3 normal;  ///< unit
  bool operator==(const Plane&) const = default;
};

using Shape = std::variant<Box, Post, Plane>;

}  // namespace fairlead::solids

// The point of a solid that lies farthest in a direction.
#pragma once

#include "geometry/solids/shapes.hpp"

namespace fairlead::solids {

/// direction: unit. Where several are as far, one of them.
Point3 farthest(const Segment&, Vec3 direction);
Point3 farthest(const Box&, Vec3 direction);
Point3 farthest(const Post&, Vec3 direction);

}  // namespace fairlead::solids

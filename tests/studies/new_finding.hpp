// A layout with something to judge that the drawn one has not.
#pragma once

#include "geometry/layout/layout.hpp"

namespace fairlead {

/// A post 5 m behind the brake unit and below it, far from everything that moves.
inline Layout with_post_beside_the_unit(Layout layout) {
  const Point3 outlet = layout.brake_unit.outlet;
  Structure post;
  post.id = {"post", {}};
  post.kind = {StructureKind::post, {}};
  post.from = Given<Point3>{outlet + Vec3{4, 3, -6}, {}};
  post.to = Given<Point3>{outlet + Vec3{4, 3, -5}, {}};
  post.diameter_m = Real{0.2, {}};
  layout.structures.push_back(post);
  return layout;
}

}  // namespace fairlead

#include "geometry/solids/farthest.hpp"

namespace fairlead::solids {

Point3 farthest(const Segment& s, Vec3 direction) { return dot(s.to - s.from, direction) > 0 ? s.to : s.from; }

Point3 farthest(const Box& box, Vec3 direction) {
  const auto side = [&](Vec3 axis, double half) { return (dot(axis, direction) < 0 ? -half : half) * axis; };
  return box.centre + side(box.x, box.half_m.x) + side(box.y, box.half_m.y) + side(box.z, box.half_m.z);
}

Point3 farthest(const Post& post, Vec3 direction) {
  const Vec3 axis = unit(post.to - post.from);
  const Point3 end = dot(axis, direction) < 0 ? post.from : post.to;
  Vec3 outward = direction - dot(direction, axis) * axis;
  outward = outward - dot(outward, axis) * axis;  // of a direction along the axis little but rounding is left
  const double size = norm(outward);
  return size > 1e-15 ? end + post.radius_m / size * outward : end;
}

}  // namespace fairlead::solids

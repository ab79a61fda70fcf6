// Boxes against solids that have a centre of symmetry.
//
// Let K be such a solid, c its centre, and s(n) one of its points farthest against a face's normal n.
// Apart: the box's nearest point lies on an edge, or inside a face. If inside a face, K's nearest points are all those
// farthest against n; when s(n) is not above the face, the straight way to it within K from one that is passes above an
// edge, as near. So the least over the 12 edges and the 6 points s(n) is the distance.
// Meeting, but no edge of the box within K: the section of K with the plane of a face, once it has a point of the face,
// lies wholly inside it. If c is outside the box, the way from c to a common point enters through a face that c is on
// the far side of; the way from c to that face's s(n) then crosses the same section, hence the face. If c is in the box
// every such way meets it.
#include <cmath>
#include <limits>

#include "geometry/solids/distance.hpp"
#include "geometry/solids/farthest.hpp"

namespace fairlead::solids {
namespace {

Point3 centre(const Box& box) { return box.centre; }
Point3 centre(const Post& post) { return post.from + 0.5 * (post.to - post.from); }

/// No point of the edge is nearer to the solid than this.
double at_least(const Segment&, const Box&) { return 0; }
double at_least(const Segment& edge, const Post& post) {
  return nearest(edge, Segment{post.from, post.to}).distance_m - post.radius_m;
}

template <class Solid>
Nearest nearest_of_box(const Box& box, const Solid& solid) {
  Nearest best{std::numeric_limits<double>::infinity(), box.centre, centre(solid)};
  const Vec3 side[3] = {box.half_m.x * box.x, box.half_m.y * box.y, box.half_m.z * box.z};
  for (const Vec3& axis : {box.x, box.y, box.z})
    for (const double sign : {-1., 1.}) {
      const Nearest met = nearest(Segment{centre(solid), farthest(solid, sign * axis)}, box);
      if (!(met.distance_m >= best.distance_m)) best = {met.distance_m, met.on_b, met.on_a};
    }
  for (int i = 0; i < 3; ++i) {
    const Vec3 along = side[i], one = side[(i + 1) % 3], other = side[(i + 2) % 3];
    for (const double a : {-1., 1.})
      for (const double b : {-1., 1.}) {
        const Point3 middle = box.centre + a * one + b * other;
        const Segment edge{middle - along, middle + along};
        if (at_least(edge, solid) >= best.distance_m) continue;
        const Nearest met = nearest(edge, solid);
        if (!(met.distance_m >= best.distance_m)) best = met;
      }
  }
  return best;
}

}  // namespace

Nearest nearest(const Box& a, const Box& b) { return nearest_of_box(a, b); }
Nearest nearest(const Box& box, const Post& post) { return nearest_of_box(box, post); }

Nearest nearest(const Box& box, const Plane& plane) {
  const Point3 p = farthest(box, -plane.normal);
  const double height = dot(p - plane.through, plane.normal);
  return {height, p, p - height * plane.normal};
}

Nearest nearest(const Box& box, const Shape& shape) {
  return std::visit([&](const auto& solid) { return nearest(box, solid); }, shape);
}

}  // namespace fairlead::solids

#include "geometry/clearance/scanned.hpp"

#include <array>
#include <vector>

namespace fairlead::clearance {
namespace {

solids::Nearest told(const std::optional<sites::Near>& near, Point3 somewhere) {
  if (!near) return {std::numeric_limits<double>::infinity(), somewhere, somewhere};
  return {near->distance_m, near->on_shape, near->on_site};
}

std::array<Point3, 8> corners_of(const solids::Box& box) {
  std::array<Point3, 8> corners;
  for (std::size_t i = 0; i < 8; ++i)
    corners[i] = box.centre + (i & 1 ? 1. : -1.) * box.half_m.x * box.x + (i & 2 ? 1. : -1.) * box.half_m.y * box.y +
                 (i & 4 ? 1. : -1.) * box.half_m.z * box.z;
  return corners;
}

}  // namespace

solids::Nearest nearest(const solids::Segment& a, const sites::Site& b, double within_m) {
  return told(b.nearest(sites::Capsule{a.from, a.to}, {.within_m = within_m}), a.from);
}

solids::Nearest nearest(const solids::Box& a, const sites::Site& b, double within_m) {
  return nearest(corners_of(a), b, within_m);
}

solids::Nearest nearest(const solids::Hull& a, const sites::Site& b, double within_m) {
  std::vector<Point3> corners;
  for (const Vec3& corner : a.corners) corners.push_back(a.at + corner);
  return nearest(corners, b, within_m);
}

solids::Nearest nearest(std::span<const Point3> corners, const sites::Site& b, double within_m) {
  return told(b.nearest(sites::Hull{corners}, {.within_m = within_m}), corners.front());
}

}  // namespace fairlead::clearance

#include "geometry/loads/hung.hpp"

#include "geometry/loads/balance.hpp"
#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {
namespace {

/// The plane of chord and load, and the line as it is seen in it.
struct Plane {
  Vec3 along, up;
  mainline::Cable cable;
};

Plane plane_of(Point3 from, Point3 to, const mainline::Cable& upright, Vec3 wind_N_per_m) {
  const Vec3 load_N_per_m = wind_N_per_m - upright.weight_N_per_m * Vec3{0, 0, 1}, chord = to - from;
  Plane plane{{}, (-1 / size(load_N_per_m)) * load_N_per_m, upright};
  plane.cable.rise_m = dot(chord, plane.up);
  const Vec3 level = chord - plane.cable.rise_m * plane.up;
  plane.cable.span_m = size(level);
  plane.cable.weight_N_per_m = size(load_N_per_m);
  plane.along = (1 / plane.cable.span_m) * level;
  return plane;
}

}  // namespace

HungForces forces_of(Point3 from, Vec3 along, Vec3 up, const mainline::Cable& cable, const mainline::Shape& shape) {
  const auto vector = [&](double x, double z) { return x * along + z * up; };
  const mainline::SupportForces ends = mainline::support_forces(cable, shape);
  HungForces forces{vector(ends.start_x_N, ends.start_z_N), vector(ends.end_x_N, ends.end_z_N), {}, 0};
  const double weight_N = cable.weight_N_per_m * cable.unstretched_m;
  forces.acting.push_back({from + (mainline::weight_moment_N_m(cable, shape) / weight_N) * along, -weight_N * up});
  for (int i = 0; i < shape.loads; ++i) {
    const mainline::Wheel& wheel = shape.wheels[static_cast<std::size_t>(i)];
    forces.acting.push_back({from + vector(wheel.x_m, wheel.z_m), -vector(wheel.force_x_N, wheel.force_z_N)});
  }
  forces.tension_N = greater(size(forces.on_from_N), size(forces.on_to_N));
  return forces;
}

Solved<HungForces> hang_between(Point3 from, Point3 to, const mainline::Cable& upright, Vec3 wind_N_per_m) {
  const Plane plane = plane_of(from, to, upright, wind_N_per_m);
  const auto shape = mainline::hang(plane.cable);
  if (!shape) return tl::unexpected(shape.error());
  return forces_of(from, plane.along, plane.up, plane.cable, *shape);
}

Solved<HungForces> pull_between(Point3 from, Point3 to, const mainline::Cable& upright, Vec3 wind_N_per_m,
                                double tension_N) {
  const Plane plane = plane_of(from, to, upright, wind_N_per_m);
  const auto pulled = mainline::hang_pulled(plane.cable, tension_N);
  if (!pulled) return tl::unexpected(pulled.error());
  return forces_of(from, plane.along, plane.up, pulled->cable, pulled->shape);
}

}  // namespace fairlead::loads

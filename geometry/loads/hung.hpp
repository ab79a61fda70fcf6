// Lines between two anchors that no sheave leads: what they do to their ends.
#pragma once

#include <span>
#include <vector>

#include "geometry/mainline/cable.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead::loads {

struct Acting {
  Point3 at;
  Vec3 force_N;
};

/// What a line does to its two ends, and what acts on it from outside; together they vanish.
struct HungForces {
  Vec3 on_from_N, on_to_N;
  std::vector<Acting> acting;  ///< weight and wind; what holds a wheel on it
  double tension_N{};          ///< greatest along it
};

/// A bare line under its weight and a wind that is the same all along it (horizontal, per unstretched metre): it hangs
/// in the plane of its chord and the sum of both as it would under its weight alone in an upright one. Of the cable,
/// span and rise follow from the ends.
Solved<HungForces> hang_between(Point3 from, Point3 to, const mainline::Cable&, Vec3 wind_N_per_m);
/// The same of a line that `tension_N` holds at its `from` end; of the cable, weight and stiffness are read.
Solved<HungForces> pull_between(Point3 from, Point3 to, const mainline::Cable&, Vec3 wind_N_per_m, double tension_N);
/// A wheel that rolls, held at its place along the line in plan.
struct Borne {
  double x_m{};  ///< from the line's start
  Vec3 load_N;   ///< on the wheel, square to the line in plan: weight, and wind
};
/// A line with wheels on it, in rising x, and a wind across it: in no plane. near_N: its pull on its start without
/// wind. It meets its end to 1e-12 of its length; unsolved where it does not.
Solved<HungForces> hang_ridden(Point3 from, Point3 to, const mainline::Cable&, Vec3 wind_N_per_m,
                               std::span<const Borne> wheels, Vec3 near_N);
/// A line solved upright, with or without wheels; each is held against what the line does to it.
HungForces forces_of(Point3 from, Vec3 along, Vec3 up, const mainline::Cable&, const mainline::Shape&);

}  // namespace fairlead::loads

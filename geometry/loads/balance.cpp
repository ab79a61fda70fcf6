#include "geometry/loads/balance.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/mainline/worst.hpp"

namespace fairlead::loads {
namespace {

/// Place of a hanging leg's weight in plan: the centroid of the catenary's arc. With slopes t = dz/dx at the ends
/// and c = H/w: integral of x ds = X c t1 - c^2 (hypot(1, t1) - hypot(1, t0)), x from the leg's beginning.
Point3 centre_of_leg(const reeving::Leg& leg, Vec3 up) {
  const Vec3 chord = leg.to - leg.from;
  const Vec3 plan = chord - dot(chord, up) * up;
  const double X = norm(plan);
  if (!(X > 0) || !(leg.weight_N > 0) || !(leg.H_N > 0)) return leg.from + 0.5 * chord;
  // The vertical force at each end follows from the end tensions; the line falls toward its lowest point, so the
  // slopes differ by weight / H and their squares by the tensions'.
  const double c = leg.H_N * leg.length_m / leg.weight_N;
  const double rise_of_slope = leg.length_m / c;
  const double sum_of_slopes = (leg.to_tension_N * leg.to_tension_N - leg.from_tension_N * leg.from_tension_N) /
                               (leg.H_N * leg.H_N * rise_of_slope);
  const double t0 = 0.5 * (sum_of_slopes - rise_of_slope), t1 = 0.5 * (sum_of_slopes + rise_of_slope);
  const double moment_m2 = X * c * t1 - c * c * (std::hypot(1.0, t1) - std::hypot(1.0, t0));
  return leg.from + (moment_m2 / leg.length_m / X) * plan;
}

}  // namespace

void Balance::push(int anchor, Point3 at, Vec3 force_N) {
  on_anchor_N_[static_cast<std::size_t>(anchor)] += force_N;
  add(at, force_N);
}

void Balance::act(Point3 at, Vec3 force_N) { add(at, -force_N); }

void Balance::add(Point3 at, Vec3 force_N) {
  const Vec3 arm = at - about_;
  force_N_ += force_N;
  couple_N_m_ += cross(arm, force_N);
  largest_N_ = std::max(largest_N_, norm(force_N));  // a NaN shows in force_N_
  largest_arm_m_ = std::max(largest_arm_m_, norm(arm));
}

Balance balance_of(const Inputs& in, const reeving::Inputs& reeving, const reeving::Reeving& reeved, int sweep_index,
                   int pose_index) {
  const reeving::Sweep& sweep = reeved.sweeps[static_cast<std::size_t>(sweep_index)];
  const auto p = static_cast<std::size_t>(pose_index);
  const reeving::Pose& pose = sweep.poses[p];
  const std::size_t sheaves = reeving.sheaves.size();
  const Vec3 down = -reeving.up;
  Balance balance(static_cast<int>(in.anchors.size()), reeving.origin);

  balance.push(in.start_anchor, in.anchors[static_cast<std::size_t>(in.start_anchor)], pose.start_support_N);
  balance.push(in.end_anchor, in.anchors[static_cast<std::size_t>(in.end_anchor)], pose.end_support_N);
  for (std::size_t i = 0; i < sheaves; ++i) {
    const reeving::Turn& turn = sweep.turns[p * sheaves + i];
    balance.push(in.sheave_anchor[i], turn.on, turn.on_tension_N * turn.on_leg);
    balance.push(in.sheave_anchor[i], turn.off, turn.off_tension_N * turn.off_leg);
    const Vec3 wrap_N = turn.force_N - turn.on_tension_N * turn.on_leg - turn.off_tension_N * turn.off_leg;
    balance.push(in.sheave_anchor[i], turn.wrap_centre, wrap_N);
    balance.act(turn.wrap_centre, wrap_N);
  }
  balance.push(in.unit_anchor, reeving.outlet(), pose.pull_on_unit_N);
  const Point3 unit = in.anchors[static_cast<std::size_t>(in.unit_anchor)];
  balance.push(in.unit_anchor, unit, in.unit_weight_N * down);
  balance.act(unit, in.unit_weight_N * down);

  for (std::size_t i = 0; i <= sheaves; ++i) {
    const reeving::Leg& leg = sweep.legs[p * (sheaves + 1) + i];
    balance.act(centre_of_leg(leg, reeving.up), leg.weight_N * down);
  }
  const reeving::SweepInputs& carried = reeving.sweeps[static_cast<std::size_t>(sweep_index)];
  balance.act(pose.trolley, (carried.trolley_weight_N + carried.rider_weight_N) * down + pose.hold_N);
  // The line's end stands off the wheel, so its pull tilts the trolley; the wheels on the main line take the couple.
  balance.act_couple(cross(pose.trolley - pose.attachment, pose.pull_on_trolley_N));
  // The main line's weight, with its moment about the start support alone known: put where that moment says.
  const double centre_m = pose.main_line_moment_N_m / pose.main_line_weight_N;
  balance.act(reeving.origin + centre_m * reeving.along, pose.main_line_weight_N * down);
  return balance;
}

Balance span_balance(const Inputs& in, const reeving::Inputs& reeving, const mainline::Cable& cable,
                     const mainline::Shape& shape) {
  const auto site = [&](double x, double z) { return x * reeving.along + z * reeving.up; };
  const mainline::SupportForces ends = mainline::support_forces(cable, shape);
  Balance balance(static_cast<int>(in.anchors.size()), reeving.origin);
  balance.push(in.start_anchor, reeving.origin, site(ends.start_x_N, ends.start_z_N));
  balance.push(in.end_anchor, reeving.origin + site(cable.span_m, cable.rise_m), site(ends.end_x_N, ends.end_z_N));
  for (int i = 0; i < shape.loads; ++i) {
    const mainline::Wheel& wheel = shape.wheels[static_cast<std::size_t>(i)];
    balance.act(reeving.origin + site(wheel.x_m, wheel.z_m), -site(wheel.force_x_N, wheel.force_z_N));
  }
  const double weight_N = cable.weight_N_per_m * cable.unstretched_m;
  balance.act(reeving.origin + site(mainline::weight_moment_N_m(cable, shape) / weight_N, 0), site(0, -weight_N));
  return balance;
}

}  // namespace fairlead::loads

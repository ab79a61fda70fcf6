// Where a line meets its sheaves: contact points, wrap, sense and fleet angle.
//
// A leg leaves the groove square to the radius there, u . e = 0, with u the direction of the hanging line at its end,
// not of its chord. Both ends of a leg are solved together. Since T = T0 + w (z - z0) holds along the whole line, over
// frictionless sheaves too, each leg stands alone once the tension at one height is known.
#pragma once

#include <array>
#include <optional>

#include "geometry/reeving/leg.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

/// One end of a leg: a plain point, or a sheave's circle with the sense in which the leg turns there.
struct LegEnd {
  Point3 centre;      ///< the point itself, or the sheave's centre
  Vec3 axle;          ///< unit; unused for a point
  double radius_m{};  ///< 0: a point
  double turn{};      ///< of a sheave: in-plane direction of the leg = turn * (axle x e), e the unit radius
};
LegEnd point_end(Point3);
LegEnd leaving(const Sheave&);   ///< the leg runs from this sheave toward the brake unit
LegEnd arriving(const Sheave&);  ///< the leg runs from the brake trolley's side to this sheave

/// Tension along the whole line: T = at_N + weight_N_per_m (z - level_m).
struct Tension {
  double at_N{}, level_m{}, weight_N_per_m{};
  bool operator==(const Tension&) const = default;
  double operator()(double z_m) const { return at_N + weight_N_per_m * (z_m - level_m); }
};

/// A leg with both contacts met. e: unit radius from the sheave's centre to the contact; zero at a point.
struct MetLeg {
  Vec3 from_e, to_e;
  Catenary hang;
};

/// First-order change of a met leg: of its length, of the angles of its contacts about their axles (rad, right-hand)
/// and of its pull on its first end.
struct MetLegChange {
  double length_m{}, from_turn_rad{}, to_turn_rad{};
  Vec3 from_pull_N;
};

/// Solves the contacts of one leg by Newton's iteration to 1e-12 rad, from `near` when given. None where no taut leg
/// meets both ends in their senses.
std::optional<MetLeg> meet(const LegEnd& from, const LegEnd& to, const Tension&, const MetLeg* near = nullptr);

/// How a met leg answers when its first end's centre moves and the tension along the line changes: exact.
MetLegChange vary(const MetLeg&, const LegEnd& from, const LegEnd& to, Vec3 from_move, double tension_change_N);

/// Angle from one unit radius to another about the axle, turning with the sense (+-1): in [0, 2 pi).
double wrap_angle(Vec3 on_e, Vec3 off_e, Vec3 axle, int sense);

/// Signed fleet angle of a direction: positive where it leans toward the axle's direction.
double fleet_angle(Vec3 direction, Vec3 axle);

/// A line over one sheave turns by half a turn at most when its legs do not cross, and by little more when they do. A
/// wrap above this is the other sense's wrap seen from behind: a redirect of 160 deg or more is left to the author.
inline constexpr double greatest_derived_wrap_rad = 200 * 3.14159265358979323846 / 180;

/// Wrap of a line over a sheave between two points, on straight legs, in the sheave's sense; none where a point lies
/// within the sheave's circle.
std::optional<double> straight_wrap(Point3 previous, Point3 next, const Sheave&);

/// The sense in which a line runs over a sheave between the points before and after it in the order from the brake
/// trolley to the brake unit (the sheave's own sense is not looked at): the one that wraps at most
/// greatest_derived_wrap_rad; none where both or neither does.
std::optional<int> derive_sense(Point3 previous, Point3 next, Sheave);

}  // namespace fairlead::reeving

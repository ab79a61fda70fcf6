// Where a line meets its sheaves: contact points, wrap, sense and fleet angle.
//
// A leg leaves the groove square to the radius there, u . e = 0, with u the direction of the hanging line at its end,
// not of its chord. Both ends of a leg are solved together. Since T = T0 + w (z - z0) holds along the whole line, z
// against its load, over frictionless sheaves too, each leg stands alone once the tension at one place is known.
#pragma once

#include <array>
#include <optional>

#include "geometry/reeving/leg.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

/// One end of a leg: a plain point (radius 0), or a sheave's circle with the sense in which the leg turns there.
struct LegEnd {
  Point3 centre;      ///< the point itself, or the sheave's centre
  Vec3 axle;          ///< unit; unused for a point
  double radius_m{};  ///< 0: a point
  double turn{};      ///< of a sheave: in-plane direction of the leg = turn * (axle x e), e the unit radius
};
LegEnd point_end(Point3);
LegEnd leaving(const Sheave&);   ///< the leg runs from this sheave toward the brake unit
LegEnd arriving(const Sheave&);  ///< the leg runs from the brake trolley's side to this sheave

/// Tension along the whole line: T = at_N at `datum`, and weight_N_per_m more for every metre up from there. The datum
/// lies near the line, so that nothing is lost far from the site's own.
struct Tension {
  double at_N{};
  Point3 datum;
  double weight_N_per_m{};  ///< the line's load per metre, wind included
  Vec3 up{0, 0, 1};         ///< unit, against the load
  bool operator==(const Tension&) const = default;
  double operator()(Point3 p) const { return at_N + weight_N_per_m * dot(p - datum, up); }
};

/// What one radian of a contact's turn about its axle changes, its sheave held; all zero at a point.
struct Slide {
  Vec3 tangent;  ///< axle x e: the contact's own way per radius
  LegChange leg;
  double mid_tension_N{};
};

/// A leg with both contacts met. e: unit radius from the sheave's centre to the contact; zero at a point.
struct MetLeg {
  Vec3 from_e, to_e;
  Catenary hang;
  Slide from_slide, to_slide;
  /// Turns of the two contacts (from, to) per newton by which the leg pulls along the radius at `from`, at `to`: they
  /// undo that.
  std::array<std::array<double, 2>, 2> undo{};
};

/// A small rigid move of an end and all that is on its body.
struct Move {
  Vec3 shift;  ///< of the end's centre
  Vec3 turn;   ///< about it: right-hand, rad, site frame
};

/// First-order change of a met leg.
struct MetLegChange {
  double length_m{}, mid_tension_N{};
  double from_turn_rad{}, to_turn_rad{};  ///< of the contacts about their axles, right-hand, as seen from their bodies
  Vec3 from_pull_N, to_pull_N;
};

/// Solves the contacts of one leg by Newton's iteration to 1e-12 rad, from the contacts of `near` when given. None
/// where no taut leg meets both ends in their senses.
std::optional<MetLeg> meet(const LegEnd& from, const LegEnd& to, const Tension&, const MetLeg* near = nullptr);

/// How a met leg answers when its ends move and the tension all along the line changes by so much: exact.
MetLegChange vary(const MetLeg&, const LegEnd& from, const LegEnd& to, const Move& from_move, const Move& to_move,
                  double tension_change_N);

/// Angle from one unit radius to another about the axle, turning with the sense (+-1): in [0, 2 pi).
double wrap_angle(Vec3 on_e, Vec3 off_e, Vec3 axle, int sense);

/// Signed fleet angle of a direction: positive where it leans toward the axle's direction.
double fleet_angle(Vec3 direction, Vec3 axle);

/// Greatest fleet angle of a straight leg from a fixed sheave to any point within `ball_m` of `end`; pi/2 where the
/// ball reaches the sheave. |sin f| <= (|h| + ball) / sqrt((|end - c| - ball)^2 - r^2), h the end's height over the
/// groove's plane.
double fleet_bound(const Sheave&, Point3 end, double ball_m);

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

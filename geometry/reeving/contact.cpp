#include "geometry/reeving/contact.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fairlead::reeving {
namespace {

Vec3 rotated(Vec3 e, Vec3 axle, double angle_rad) {
  return std::cos(angle_rad) * e + std::sin(angle_rad) * cross(axle, e);
}

Vec3 in_plane(Vec3 v, Vec3 axle) { return v - dot(v, axle) * axle; }

/// The radius square to a leg of this direction, in the end's sense.
Vec3 radius_for(const LegEnd& end, Vec3 direction) {
  if (end.radius_m == 0) return {};
  return end.turn * cross(unit(in_plane(direction, end.axle)), end.axle);
}

std::optional<Catenary> hang(const MetLeg& leg, const LegEnd& from, const LegEnd& to, const Tension& tension) {
  const Vec3 a = from.radius_m * leg.from_e, b = to.radius_m * leg.to_e, apart = to.centre - from.centre;
  const double mid_N = tension(from.centre) + tension.weight_N_per_m / 2 * dot(apart + a + b, tension.up);
  return hang_leg(apart + (b - a), mid_N, tension.weight_N_per_m, tension.up);
}

Slide slide(const Catenary& leg, const LegEnd& end, Vec3 e, double into_span) {
  if (end.radius_m == 0) return {};
  Slide r{cross(end.axle, e), {}, {}};
  const Vec3 way = end.radius_m * r.tangent;
  r.mid_tension_N = leg.weight_N_per_m / 2 * dot(way, leg.up);
  r.leg = vary(leg, into_span * way, r.mid_tension_N);
  return r;
}

/// What the contacts' turns do, and which turns undo a pull along the radii.
void linearise(MetLeg& leg, const LegEnd& from, const LegEnd& to) {
  leg.from_slide = slide(leg.hang, from, leg.from_e, -1);
  leg.to_slide = slide(leg.hang, to, leg.to_e, 1);
  const Slide &f = leg.from_slide, &t = leg.to_slide;
  // Of (from_pull . from_e, to_pull . to_e) in the two angles, N per rad; a point has no angle.
  const double ff = from.radius_m > 0 ? dot(f.leg.from_pull_N, leg.from_e) + dot(leg.hang.from_pull_N(), f.tangent) : 1;
  const double tt = to.radius_m > 0 ? dot(t.leg.to_pull_N, leg.to_e) + dot(leg.hang.to_pull_N(), t.tangent) : 1;
  const double ft = dot(t.leg.from_pull_N, leg.from_e), tf = dot(f.leg.to_pull_N, leg.to_e);
  const double det = ff * tt - ft * tf;
  leg.undo = {{{-tt / det, ft / det}, {tf / det, -ff / det}}};
}

/// The two angle changes that undo a change of the two contact residuals.
std::array<double, 2> undo(const MetLeg& leg, double from_residual, double to_residual) {
  return {leg.undo[0][0] * from_residual + leg.undo[0][1] * to_residual,
          leg.undo[1][0] * from_residual + leg.undo[1][1] * to_residual};
}

MetLeg straight_start(const LegEnd& from, const LegEnd& to) {
  MetLeg leg;
  // The straight leg's contacts by turns: each round shrinks the error by about radius over length.
  constexpr int kRounds = 4;
  for (int i = 0; i < kRounds; ++i) {
    const Vec3 run = (to.centre + to.radius_m * leg.to_e) - (from.centre + from.radius_m * leg.from_e);
    leg.from_e = radius_for(from, run);
    leg.to_e = radius_for(to, -run);
  }
  return leg;
}

bool in_sense(const LegEnd& end, Vec3 e, Vec3 pull) {
  return end.radius_m == 0 || end.turn * dot(pull, cross(end.axle, e)) > 0;
}

std::optional<MetLeg> newton(MetLeg leg, const LegEnd& from, const LegEnd& to, const Tension& tension) {
  constexpr int kMost = 40;
  constexpr double kMet_rad = 1e-12, kLongestStep_rad = 0.5;
  for (int i = 0; i < kMost; ++i) {
    const auto hung = hang(leg, from, to, tension);
    if (!hung) return std::nullopt;
    leg.hang = *hung;
    linearise(leg, from, to);
    const auto step = undo(leg, dot(leg.hang.from_pull_N(), leg.from_e), dot(leg.hang.to_pull_N(), leg.to_e));
    const double longest = std::max(std::abs(step[0]), std::abs(step[1]));
    if (longest <= kMet_rad) {
      const bool senses_met =
          in_sense(from, leg.from_e, leg.hang.from_pull_N()) && in_sense(to, leg.to_e, leg.hang.to_pull_N());
      return senses_met ? std::optional{leg} : std::nullopt;
    }
    const double shorten = std::min(1.0, kLongestStep_rad / longest);
    if (from.radius_m > 0) leg.from_e = rotated(leg.from_e, from.axle, shorten * step[0]);
    if (to.radius_m > 0) leg.to_e = rotated(leg.to_e, to.axle, shorten * step[1]);
  }
  return std::nullopt;
}

/// Unit radius to where a straight leg from a point touches the circle; none for a point inside it.
std::optional<Vec3> straight_contact(const LegEnd& end, Point3 point) {
  const Vec3 p = in_plane(point - end.centre, end.axle);
  const double distance = norm(p);
  if (!(distance > end.radius_m)) return std::nullopt;
  return rotated((1 / distance) * p, end.axle, -end.turn * std::acos(end.radius_m / distance));
}

}  // namespace

LegEnd point_end(Point3 p) { return {.centre = p, .axle = {}, .radius_m = 0, .turn = 0}; }
LegEnd leaving(const Sheave& s) { return {s.centre, s.axle, s.radius_m, double(s.sense)}; }
LegEnd arriving(const Sheave& s) { return {s.centre, s.axle, s.radius_m, -double(s.sense)}; }

std::optional<MetLeg> meet(const LegEnd& from, const LegEnd& to, const Tension& tension, const MetLeg* near) {
  if (near) {
    MetLeg start;
    // Rounding would creep in from pose to pose: the neighbour's radii are made unit again.
    if (from.radius_m > 0) start.from_e = unit(in_plane(near->from_e, from.axle));
    if (to.radius_m > 0) start.to_e = unit(in_plane(near->to_e, to.axle));
    if (auto met = newton(start, from, to, tension)) return met;
  }
  return newton(straight_start(from, to), from, to, tension);
}

MetLegChange vary(const MetLeg& leg, const LegEnd& from, const LegEnd& to, const Move& from_move, const Move& to_move,
                  double tension_change_N) {
  const Vec3 from_radius_change = cross(from_move.turn, leg.from_e), to_radius_change = cross(to_move.turn, leg.to_e);
  const Vec3 a = from_move.shift + from.radius_m * from_radius_change,
             b = to_move.shift + to.radius_m * to_radius_change;
  const double mid_N = tension_change_N + leg.hang.weight_N_per_m / 2 * dot(a + b, leg.hang.up);
  const LegChange held = vary(leg.hang, b - a, mid_N);
  const auto turn = undo(leg, dot(held.from_pull_N, leg.from_e) + dot(leg.hang.from_pull_N(), from_radius_change),
                         dot(held.to_pull_N, leg.to_e) + dot(leg.hang.to_pull_N(), to_radius_change));
  const Slide &f = leg.from_slide, &t = leg.to_slide;
  return {.length_m = held.length_m + turn[0] * f.leg.length_m + turn[1] * t.leg.length_m,
          .mid_tension_N = mid_N + turn[0] * f.mid_tension_N + turn[1] * t.mid_tension_N,
          .from_turn_rad = turn[0],
          .to_turn_rad = turn[1],
          .from_pull_N = held.from_pull_N + turn[0] * f.leg.from_pull_N + turn[1] * t.leg.from_pull_N,
          .to_pull_N = held.to_pull_N + turn[0] * f.leg.to_pull_N + turn[1] * t.leg.to_pull_N};
}

double wrap_angle(Vec3 on_e, Vec3 off_e, Vec3 axle, int sense) {
  const double angle = sense * std::atan2(dot(cross(on_e, off_e), axle), dot(on_e, off_e));
  return angle < 0 ? angle + 2 * std::numbers::pi : angle;
}

double fleet_angle(Vec3 direction, Vec3 axle) {
  const double across = dot(direction, axle);
  return std::atan2(across, norm(direction - across * axle));
}

double fleet_bound(const Sheave& sheave, Point3 end, double ball_m) {
  const Vec3 d = end - sheave.centre;
  const double least_m = norm(d) - ball_m, leg2 = least_m * least_m - sheave.radius_m * sheave.radius_m;
  if (!(least_m > 0 && leg2 > 0)) return std::numbers::pi / 2;
  return std::asin(std::min(1.0, (std::abs(dot(d, sheave.axle)) + ball_m) / std::sqrt(leg2)));
}

std::optional<double> straight_wrap(Point3 previous, Point3 next, const Sheave& sheave) {
  const auto on = straight_contact(arriving(sheave), previous), off = straight_contact(leaving(sheave), next);
  if (!on || !off) return std::nullopt;
  return wrap_angle(*on, *off, sheave.axle, sheave.sense);
}

std::optional<int> derive_sense(Point3 previous, Point3 next, Sheave sheave) {
  std::optional<int> found;
  for (const int sense : {+1, -1}) {
    sheave.sense = sense;
    const auto wrap = straight_wrap(previous, next, sheave);
    if (!wrap || !(*wrap <= greatest_derived_wrap_rad)) continue;
    if (found) return std::nullopt;
    found = sense;
  }
  return found;
}

}  // namespace fairlead::reeving

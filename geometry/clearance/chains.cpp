// The legs and the main line as chords.
#include <algorithm>
#include <cmath>

#include "geometry/clearance/movers.hpp"

namespace fairlead::clearance {
namespace {

/// A hanging leg in its own plane: where it is at a share of its chord.
struct Hanging {
  Point3 from;
  Vec3 span, up;        ///< up: against the load
  double run_m{};       ///< of the chord, square to the load
  double h{}, start{};  ///< half its run and where it starts, in units of the catenary's parameter
  double fall_m{};      ///< of its end slope over the leg: per share of the chord, what its direction varies by
  double bulge_m{};     ///< no chord over a share s of it leaves the curve by more than s^2 of this

  explicit Hanging(const reeving::Leg& leg) : from(leg.from), span(leg.to - leg.from) {
    const double load = norm(leg.load_N_per_m);
    if (!(load > 0 && leg.H_N > 0)) return;
    up = (-1 / load) * leg.load_N_per_m;
    const double rise = dot(span, up);
    run_m = norm(span - rise * up);
    if (!(run_m > 0)) return;
    h = load * run_m / (2 * leg.H_N);
    start = std::asinh(rise / run_m * h / std::sinh(h)) - h;
    fall_m = load * leg.length_m / leg.H_N * run_m;
    const double steepest = std::max(leg.from_tension_N, leg.to_tension_N) / leg.H_N;
    bulge_m = load / leg.H_N * steepest * run_m * run_m / 8;
  }

  /// Even shares from `first` to `last`, n + 1 of them. The two hyperbolic sines of the height over the chord's first
  /// end step by the theorem of addition.
  void points(double first, double last, int n, std::vector<Point3>& out) const {
    const double step = (last - first) / n;
    if (!(h > 0)) {
      for (int i = 0; i <= n; ++i) out.push_back(from + (first + i * step) * span);
      return;
    }
    const Vec3 flat = span - dot(span, up) * up;
    const double s = std::sinh(h * step), c = std::cosh(h * step), size = run_m / h;
    double s1 = std::sinh(h * first), c1 = std::cosh(h * first), s2 = std::sinh(start + h * first),
           c2 = std::cosh(start + h * first);
    for (int i = 0; i <= n; ++i) {
      out.push_back(from + (first + i * step) * flat + size * s1 * s2 * up);
      const double next1 = s1 * c + c1 * s, next2 = s2 * c + c2 * s;
      c1 = c1 * c + s1 * s;
      c2 = c2 * c + s2 * s;
      s1 = next1;
      s2 = next2;
    }
  }
};

struct Shares {
  double first, last;
};
Shares shares_of(const Stretch& stretch, double chord_m) {
  if (stretch.keep_m > 0) return {0, std::min(1., stretch.keep_m / chord_m)};
  const double skipped_m = stretch.skip_from_m + stretch.skip_to_m;
  if (!(skipped_m < chord_m)) return {stretch.skip_from_m / skipped_m, stretch.skip_from_m / skipped_m};
  return {stretch.skip_from_m / chord_m, 1 - stretch.skip_to_m / chord_m};
}

int chords_for(double bulge_m, const Inputs& inputs) {
  return std::clamp(static_cast<int>(std::ceil(std::sqrt(bulge_m / (chord_share * inputs.resolution_m)))), 1,
                    most_chords);
}

}  // namespace

// A point of the stretch keeps no constant share s of its chord from one pose to the next. Interpolated as if it did,
// it is off by t (1 - t) ds (P1' - P0') <= ds/4 |P1' - P0'|, P' the curve's change with s: the span, give or take
// fall_m.
Chain hanging_chain(const Stretch& stretch, const Passage& passage) {
  std::vector<Hanging> legs;
  std::vector<Shares> shares;
  double bulge_m = 0;
  for (int i = 0; i < passage.poses; ++i) {
    legs.emplace_back(passage.leg(i, stretch.leg));
    shares.push_back(shares_of(stretch, norm(legs.back().span)));
    const double share = shares.back().last - shares.back().first;
    bulge_m = std::max(bulge_m, share * share * legs.back().bulge_m);
  }
  const int chords = chords_for(bulge_m, passage.inputs);
  std::vector<Point3> at;
  at.reserve(static_cast<std::size_t>((chords + 1) * passage.poses));
  for (std::size_t i = 0; i < legs.size(); ++i) legs[i].points(shares[i].first, shares[i].last, chords, at);
  Chain chain(chords + 1, std::move(at));
  chain.slack_m = bulge_m / (chords * chords);
  for (std::size_t i = 0; i + 1 < legs.size(); ++i) {
    const double shift =
        std::max(std::abs(shares[i + 1].first - shares[i].first), std::abs(shares[i + 1].last - shares[i].last));
    const double turn_m = norm(legs[i + 1].span - legs[i].span) + legs[i].fall_m + legs[i + 1].fall_m;
    chain.stray_m.push_back(passage.stray(static_cast<int>(i)).legs_m[static_cast<std::size_t>(stretch.leg)] +
                            shift / 4 * turn_m);
  }
  const reeving::Inputs& rig = passage.rig;
  for (std::size_t l = 0; l < rig.lines.size(); ++l)
    if (rig.legs_before(l) <= static_cast<std::size_t>(stretch.leg)) chain.radius_m = rig.lines[l].diameter_m / 2;
  return chain;
}

namespace {

/// What the main line carries at a pose: the rider and the trolley less its line's upward pull.
Solved<mainline::Shape> main_line_at(const Passage& passage, const reeving::Pose& pose, const mainline::Shape* near) {
  const reeving::Inputs& rig = passage.rig;
  const auto x = [&](Point3 p) { return dot(p - rig.origin, rig.along); };
  const double trolley_N = passage.given.trolley_weight_N - dot(pose.pull_on_trolley_N, rig.up),
               rider_N = passage.given.rider_weight_N;
  if (pose.travel_m < 0 && rider_N > 0) {
    const mainline::Load loads[2] = {{x(pose.rider), rider_N}, {x(pose.trolley), trolley_N}};
    return mainline::hang_rolling(passage.given.state.cable, loads, near && near->loads == 2 ? near : nullptr);
  }
  const mainline::Load load{x(pose.trolley), trolley_N + rider_N};
  return mainline::hang_rolling(passage.given.state.cable, {&load, 1}, near && near->loads == 1 ? near : nullptr);
}

/// Where the main line matters: from a metre upstream of every leg and of the rider.
double upstream_end_m(const Passage& passage) {
  const reeving::Inputs& rig = passage.rig;
  double least = rig.rest_m;
  const auto reach = [&](Point3 p) { least = std::min(least, dot(p - rig.origin, rig.along)); };
  for (int i = 0; i < passage.poses; ++i) {
    reach(passage.pose(i).rider);
    for (int leg = 0; leg < static_cast<int>(rig.legs()); ++leg) {
      reach(passage.leg(i, leg).from);
      reach(passage.leg(i, leg).to);
    }
  }
  return std::max(0., least - 1);
}

/// The main line between two places as chords of equal reach, its greatest drop below the one chord from end to end
/// among `out`'s points.
double add_piece(const Passage& passage, const mainline::Shape& shape, Point3 from, Point3 to, int chords,
                 std::vector<Point3>& out) {
  const reeving::Inputs& rig = passage.rig;
  double drop_m = 0;
  for (int k = 1; k <= chords; ++k) {
    Point3 p = from + double(k) / chords * (to - from);
    if (k < chords) {
      const double x = dot(p - rig.origin, rig.along), chord_z = p.z;
      p.z = rig.origin.z + mainline::line_at(passage.given.state.cable, shape, x).z_m;
      drop_m = std::max(drop_m, chord_z - p.z);
    }
    out.push_back(p);
  }
  return drop_m;
}

}  // namespace

// Between poses the wheels are as far off as the poses say. That the drop of each piece between supports and wheels
// stays between its values at the two poses is taken, not proven: loads and reaches change one way.
Solved<Chain> main_line_chain(const Passage& passage) {
  const reeving::Inputs& rig = passage.rig;
  const mainline::Cable& cable = passage.given.state.cable;
  const double from_m = upstream_end_m(passage);
  std::vector<mainline::Shape> shapes;
  double per_m2 = 0;  // what a chord of a metre's reach leaves the curve by
  for (int i = 0; i < passage.poses; ++i) {
    const auto shape = main_line_at(passage, passage.pose(i), shapes.empty() ? nullptr : &shapes.back());
    if (!shape) return tl::unexpected(shape.error());
    for (int k = 0; k <= shape->loads; ++k) {
      const mainline::Piece& piece = shape->pieces[static_cast<std::size_t>(k)];
      const double V = std::max(std::abs(piece.V_N), std::abs(piece.V_N - cable.weight_N_per_m * piece.unstretched_m));
      per_m2 = std::max(per_m2, cable.weight_N_per_m * std::hypot(piece.H_N, V) / (piece.H_N * piece.H_N) / 8);
    }
    shapes.push_back(*shape);
  }
  const Point3 end = rig.origin + cable.span_m * rig.along + cable.rise_m * rig.up;
  const auto reach = [&](Point3 a, Point3 b) { return dot(b - a, rig.along); };
  double reaches[3] = {};
  for (int i = 0; i < passage.poses; ++i) {
    const reeving::Pose& pose = passage.pose(i);
    reaches[0] = std::max(reaches[0], reach(rig.origin, pose.rider) - from_m);
    reaches[1] = std::max(reaches[1], reach(pose.rider, pose.trolley));
    reaches[2] = std::max(reaches[2], reach(pose.trolley, end));
  }
  int chords[3], points = 1;
  Chain chain(1, {});
  double slack_m = 0;
  for (int k = 0; k < 3; ++k) {
    const double bulge_m = per_m2 * reaches[k] * reaches[k];
    chords[k] = chords_for(bulge_m, passage.inputs);
    points += chords[k];
    slack_m = std::max(slack_m, bulge_m / (chords[k] * chords[k]));
  }
  std::vector<Point3> at;
  std::vector<std::array<double, 3>> drops;
  for (int i = 0; i < passage.poses; ++i) {
    const reeving::Pose& pose = passage.pose(i);
    const mainline::Shape& shape = shapes[static_cast<std::size_t>(i)];
    Point3 start = rig.origin + from_m * rig.along;
    start.z += mainline::line_at(cable, shape, from_m).z_m;
    at.push_back(start);
    const Point3 places[4] = {start, pose.rider, pose.trolley, end};
    drops.emplace_back();
    for (int k = 0; k < 3; ++k)
      drops.back()[static_cast<std::size_t>(k)] = add_piece(passage, shape, places[k], places[k + 1], chords[k], at);
  }
  chain = Chain(points, std::move(at));
  chain.radius_m = passage.inputs.main_line_radius_m;
  chain.slack_m = slack_m;
  for (int i = 0; i + 1 < passage.poses; ++i) {
    const auto n = static_cast<std::size_t>(i);
    double changed_m = 0;
    for (std::size_t k = 0; k < 3; ++k) changed_m = std::max(changed_m, std::abs(drops[n + 1][k] - drops[n][k]));
    chain.stray_m.push_back(std::max(passage.stray(i).rider_m, passage.stray(i).trolley_m) + changed_m);
  }
  return chain;
}

}  // namespace fairlead::clearance

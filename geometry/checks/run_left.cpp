#include "geometry/checks/run_left.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// A box or a disc on something that may have moved.
struct Body {
  Point3 centre;
  Vec3 x, y, z;         ///< a box's half sizes along its axes; zero of a disc
  Vec3 axle;            ///< of a disc, unit
  double radius_m = 0;  ///< of a disc
};

/// How far it reaches along `way` (unit) beyond `from`.
double reach_m(const Body& body, Point3 from, Vec3 way) {
  const double across = dot(way, body.axle);
  return dot(body.centre - from, way) + std::abs(dot(body.x, way)) + std::abs(dot(body.y, way)) +
         std::abs(dot(body.z, way)) + body.radius_m * std::sqrt(std::max(0.0, 1 - across * across));
}

double farthest_m(const Body& body, Point3 from) {
  return norm(body.centre - from) + norm(body.x) + norm(body.y) + norm(body.z) + body.radius_m;
}

class Ends {
 public:
  Ends(const Rig& rig, const LegOf& leg) : rig_(rig), leg_(leg) {
    for (const LegSide& side : {leg.from, leg.to}) drawn_.push_back(bodies_of(side));
  }

  /// The bodies at the leg's first (0) or last (1) end, where they stand at a pose.
  std::vector<Body> at(std::size_t end, const reeving::Sweep& sweep, std::size_t pose) const {
    std::vector<Body> bodies = drawn_[end];
    const reeving::Body body = (end == 0 ? leg_.from : leg_.to).body;
    if (body < 0) return bodies;
    const auto block = static_cast<std::size_t>(body);
    const reeving::Placement& place = sweep.blocks[pose * rig_.bodies.size() + block].placement;
    for (Body& b : bodies) {
      b.centre = place.move(b.centre, rig_.reeving.inputs->blocks[block].drawn);
      for (Vec3* v : {&b.x, &b.y, &b.z, &b.axle}) *v = place.turn(*v);
    }
    return bodies;
  }

 private:
  Body box(Point3 centre, const Size& size) const {
    const Frame& f = rig_.frame;
    return {centre, 0.5 * size.along_m * f.along, 0.5 * size.across_m * f.across, 0.5 * size.up_m * f.up, {}, 0};
  }

  std::vector<Body> bodies_of(const LegSide& side) const {
    const reeving::Inputs& in = *rig_.reeving.inputs;
    std::vector<Body> bodies;
    const auto add_sheave = [&](std::size_t k) {
      bodies.push_back({in.sheaves[k].centre, {}, {}, {}, in.sheaves[k].axle, in.sheaves[k].radius_m});
    };
    if (side.body >= 0 && rig_.bodies[static_cast<std::size_t>(side.body)].kind == Item::Kind::block) {
      const auto block = static_cast<std::size_t>(side.body);
      if (const auto& size = rig_.layout.blocks[block].size_m) bodies.push_back(box(in.blocks[block].drawn, *size));
      for (std::size_t k = 0; k < in.sheaves.size(); ++k)
        if (in.sheaves[k].body == side.body) add_sheave(k);
    } else if (side.item.kind == Item::Kind::sheave) {
      const auto k = static_cast<std::size_t>(std::find(rig_.reeved.begin(), rig_.reeved.end(), side.item.index) -
                                              rig_.reeved.begin());
      add_sheave(k);
      if (const auto& frame = rig_.layout.sheaves[static_cast<std::size_t>(side.item.index)].frame_m)
        bodies.push_back(box(in.sheaves[k].centre, *frame));
    }
    return bodies;
  }

  const Rig& rig_;
  const LegOf& leg_;
  std::vector<std::vector<Body>> drawn_;
};

/// A leg at one pose.
struct Chord {
  Point3 from, to;
  double taken_m{};          ///< by what stands at both ends
  double farthest_m{};       ///< of all that stands there, from the leg's ends, both ends together
  std::vector<Vec3> turned;  ///< the axes of the blocks there
  double length_m() const { return norm(to - from); }
};

/// Least distance of the straight way from one chord to the next from a chord of no length.
double nearest_m(const Chord& a, const Chord& b) {
  const Vec3 c = a.to - a.from, way = (b.to - b.from) - c;
  const double length2 = dot(way, way);
  if (!(length2 > 0)) return norm(c);
  return norm(c + std::clamp(-dot(c, way) / length2, 0.0, 1.0) * way);
}

double angle_between(Vec3 a, Vec3 b) { return std::atan2(norm(cross(a, b)), dot(a, b)); }

/// What lies between two poses is no less than this.
double bound_m(const Chord& a, const Chord& b, double leg_stray_m, double block_stray_m) {
  const double chord_m = nearest_m(a, b) - 2 * leg_stray_m;
  const double taken_m = greater(a.taken_m, b.taken_m), farthest_m = greater(a.farthest_m, b.farthest_m);
  if (!(chord_m > 0)) return chord_m - greater(taken_m, farthest_m);
  double turned_rad = angle_between(a.to - a.from, b.to - b.from) +
                      (2 * leg_stray_m < chord_m ? std::asin(2 * leg_stray_m / chord_m) : std::numbers::pi);
  for (std::size_t i = 0; i < a.turned.size(); ++i) turned_rad += norm(b.turned[i] - a.turned[i]);
  // The leg's ends shift on the bodies as well: by no more than they move apart from them.
  const double shifted_m = 2 * (leg_stray_m + block_stray_m);
  return chord_m - taken_m - (farthest_m > 0 ? shifted_m + farthest_m * turned_rad : 0);
}

}  // namespace

Extreme least_run_m(const Rig& rig, const reeving::Sweep& sweep, const std::vector<LegOf>& legs, std::size_t index,
                    bool bodies) {
  const LegOf& leg = legs[index];
  const Ends ends(rig, leg);
  const auto at = [&](std::size_t pose) {
    const reeving::Leg& l = sweep.legs[pose * legs.size() + index];
    Chord chord{l.from, l.to, leg.from.termination_m + leg.to.termination_m, 0, {}};
    if (!bodies) return chord;
    chord.taken_m = 0;
    const Vec3 way = (1 / chord.length_m()) * (chord.to - chord.from);
    for (const std::size_t end : {std::size_t{0}, std::size_t{1}}) {
      double reach = 0, farthest = 0;
      const Point3 from = end == 0 ? chord.from : chord.to;
      for (const Body& body : ends.at(end, sweep, pose)) {
        reach = greater(reach, reach_m(body, from, end == 0 ? way : -way));
        farthest = greater(farthest, farthest_m(body, from));
      }
      chord.taken_m += reach;
      chord.farthest_m += farthest;
      const reeving::Body block = (end == 0 ? leg.from : leg.to).body;
      if (block < 0) continue;
      const reeving::Placement& place =
          sweep.blocks[pose * rig.bodies.size() + static_cast<std::size_t>(block)].placement;
      for (const Vec3& v : {place.turned_x, place.turned_y, place.turned_z}) chord.turned.push_back(v);
    }
    return chord;
  };
  const auto block_stray_m = [&](std::size_t gap) {
    double stray_m = 0;
    for (const reeving::Body block : {leg.from.body, leg.to.body})
      if (block >= 0) stray_m = greater(stray_m, sweep.strays[gap].blocks_m[static_cast<std::size_t>(block)]);
    return stray_m;
  };
  constexpr double infinite = std::numeric_limits<double>::infinity();
  Extreme least{infinite, infinite, -1};
  Chord before;
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    const Chord chord = at(p);
    const double run_m = chord.length_m() - chord.taken_m;
    if (!(run_m >= least.value) && !std::isnan(least.value)) least.value = run_m, least.pose = static_cast<int>(p);
    least.bound = lesser(least.bound, run_m);
    if (p > 0) {
      least.bound =
          lesser(least.bound, bound_m(before, chord, sweep.strays[p - 1].legs_m[index], block_stray_m(p - 1)));
    }
    before = chord;
  }
  return least;
}

}  // namespace fairlead

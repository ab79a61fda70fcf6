// What stands where at one pose of the reeving.
#include <algorithm>
#include <cmath>
#include <span>

#include "geometry/mainline/cable.hpp"
#include "geometry/reeving/leg.hpp"
#include "report/views/scene_parts.hpp"

namespace fairlead::views {

namespace {

constexpr double sample_m = 0.1;  // of a main line's curve: at 1:20 a chord of it still lies within 0.01 mm
constexpr int leg_points = 121, wrap_points = 49;

Role role_of(const Rig& rig, std::size_t line) {
  if (rig.lines[line].kind == Item::Kind::support_line) return Role::support;
  return static_cast<int>(line) == rig.reeving.inputs->braking ? Role::braking : Role::reduction;
}

/// The arc of a line round a sheave of radius r, from where it comes on to where it leaves.
Curve3 wrap_of(const reeving::Turn& turn, Point3 centre, Vec3 axle, int sense) {
  const Vec3 e = unit(turn.on - centre), f = cross(axle, e);
  const double radius_m = norm(turn.on - centre);
  Curve3 arc;
  for (int i = 0; i < wrap_points; ++i) {
    const double angle = sense * turn.wrap_rad * i / (wrap_points - 1);
    arc.push_back(centre + radius_m * (std::cos(angle) * e + std::sin(angle) * f));
  }
  return arc;
}

/// Reads one pose of one sweep.
class PoseReader {
 public:
  PoseReader(const Rig& rig, const reeving::Sweep& sweep, std::size_t index)
      : rig_(rig), in_(*rig.reeving.inputs), sweep_(sweep), index_(index) {}

  void read(RigPose& seen) const {
    lines(seen);
    blocks(seen);
    dead_ends(seen);
  }

 private:
  const reeving::BlockPlace& place(reeving::Body body) const {
    return sweep_.blocks[index_ * in_.blocks.size() + static_cast<std::size_t>(body)];
  }
  /// Where a point lies that moves with a body; of the trolley's there is no drawn place.
  Point3 moved(Point3 p, reeving::Body body) const {
    if (body < 0) return p;
    return place(body).placement.move(p, in_.blocks[static_cast<std::size_t>(body)].drawn);
  }
  Vec3 turned(Vec3 v, reeving::Body body) const { return body < 0 ? v : place(body).placement.turn(v); }

  void lines(RigPose& seen) const {
    for (std::size_t l = 0; l < in_.lines.size(); ++l) {
      const reeving::Line& line = in_.lines[l];
      LineSeen out{static_cast<int>(l), role_of(rig_, l), {}, {}, 0};
      for (int k = 0; k <= line.sheaves; ++k) {
        const std::size_t leg_index = index_ * in_.legs() + in_.legs_before(l) + static_cast<std::size_t>(k);
        const reeving::Leg& leg = sweep_.legs[leg_index];
        out.legs.push_back(reeving::hanging_curve(leg, leg_points));
        out.greatest_sag_m = std::max(out.greatest_sag_m, leg.sag_m);
        if (k < line.sheaves) wrap(static_cast<std::size_t>(line.first_sheave + k), out);
      }
      seen.lines.push_back(std::move(out));
    }
  }
  void wrap(std::size_t k, LineSeen& out) const {
    const reeving::Sheave& sheave = in_.sheaves[k];
    if (!(sheave.radius_m > 0)) return;
    const reeving::Turn& turn = sweep_.turns[index_ * in_.sheaves.size() + k];
    out.wraps.push_back(
        wrap_of(turn, moved(sheave.centre, sheave.body), turned(sheave.axle, sheave.body), sheave.sense));
  }

  void blocks(RigPose& seen) const {
    for (std::size_t b = 0; b < rig_.layout.blocks.size(); ++b) {
      const reeving::Body body = static_cast<int>(b);
      BlockSeen out{body, place(body).placement.at, {}, {}};
      if (const auto& size = rig_.layout.blocks[static_cast<std::size_t>(out.index)].size_m)
        out.body = corners_of(in_.blocks[b].drawn, *size, rig_.frame.along, rig_.frame.across, rig_.frame.up);
      for (Point3& p : out.body) p = moved(p, body);
      for (const reeving::Sheave& s : in_.sheaves)
        if (s.body == body && !(s.radius_m > 0)) out.wheels.push_back(moved(s.centre, body));
      seen.blocks.push_back(std::move(out));
    }
    for (std::size_t k = 0; k < in_.sheaves.size(); ++k) {
      const reeving::Sheave& s = in_.sheaves[k];
      if (s.body < 0 || !(s.radius_m > 0)) continue;
      const Point3 at = place(s.body).placement.at;
      seen.sheaves.push_back({rig_.reeved[k], moved(s.centre, s.body), turned(s.axle, s.body), s.radius_m, at});
    }
  }

  void dead_ends(RigPose& seen) const {
    for (std::size_t l = 0; l < in_.lines.size(); ++l) {
      if (rig_.lines[l].kind == Item::Kind::support_line) continue;
      const reeving::Line& line = in_.lines[l];
      const auto add = [&](const reeving::End& end) {
        seen.dead_ends.push_back({static_cast<int>(l), moved(end.at, end.body)});
      };
      if (line.from.body != reeving::on_trolley) add(line.from);
      if (static_cast<int>(l) != in_.braking) add(line.to);
    }
  }

  const Rig& rig_;
  const reeving::Inputs& in_;
  const reeving::Sweep& sweep_;
  std::size_t index_;
};

std::size_t pose_nearest(const reeving::Sweep& sweep, double travel_m) {
  std::size_t best = 0;
  for (std::size_t i = 0; i < sweep.poses.size(); ++i)
    if (std::abs(sweep.poses[i].travel_m - travel_m) < std::abs(sweep.poses[best].travel_m - travel_m)) best = i;
  return best;
}

}  // namespace

const LineSeen* RigPose::braking() const {
  const auto at = std::find_if(lines.begin(), lines.end(), [](const LineSeen& l) { return l.role == Role::braking; });
  return at == lines.end() ? nullptr : &*at;
}

Curve3 main_line_of(const Frame& frame, const reeving::SweepInputs& given, const reeving::Pose& pose, double from_m,
                    double to_m) {
  const auto x = [&](Point3 p) { return dot(p - frame.origin, frame.along); };
  const mainline::Cable& cable = given.state.cable;
  const double trolley_N = given.trolley_weight_N - pose.pull_on_trolley_N.z;
  const bool apart = pose.travel_m < 0 && given.rider_weight_N > 0;
  const mainline::Load rider{x(pose.rider), given.rider_weight_N};
  const mainline::Load trolley{x(pose.trolley), apart ? trolley_N : trolley_N + given.rider_weight_N};
  const mainline::Load both[] = {rider, trolley};
  const auto shape = mainline::hang_rolling(cable, apart ? std::span(both) : std::span(both).last(1));
  return shape ? curve_of(frame, cable, *shape, from_m, to_m) : Curve3{};
}

Curve3 curve_of(const Frame& frame, const mainline::Cable& cable, const mainline::Shape& shape, double from_m,
                double to_m) {
  const double first = std::max(0.0, from_m - frame.chainage_of_origin_m);
  const double last = std::min(cable.span_m, to_m - frame.chainage_of_origin_m);
  std::vector<double> xs;
  for (int i = 0; i < shape.loads; ++i)
    if (const double x = shape.wheels[static_cast<std::size_t>(i)].x_m; x >= first && x <= last) xs.push_back(x);
  const int pieces = std::max(1, static_cast<int>(std::ceil((last - first) / sample_m)));
  for (int i = 0; i <= pieces; ++i) xs.push_back(first + (last - first) * i / pieces);
  std::sort(xs.begin(), xs.end());
  Curve3 curve;
  for (double x : xs)
    curve.push_back(frame.origin + x * frame.along + mainline::line_at(cable, shape, x).z_m * frame.up);
  return curve;
}

Curve3 corners_of(Point3 centre, const Size& size, Vec3 along, Vec3 across, Vec3 up) {
  Curve3 corners;
  for (double a : {-0.5, 0.5})
    for (double b : {-0.5, 0.5})
      for (double c : {-0.5, 0.5})
        corners.push_back(centre + a * size.along_m * along + b * size.across_m * across + c * size.up_m * up);
  return corners;
}

const reeving::Sweep* find_sweep(const Rig& rig, mainline::Loading loading, reeving::Running running,
                                 std::optional<int> state) {
  const mainline::MainLine* line = rig.main_line.solved();
  const reeving::Reeving* reeved = rig.reeving.solved();
  if (!line || !reeved) return nullptr;
  for (std::size_t i = 0; i < reeved->sweeps.size(); ++i) {
    const reeving::Sweep& sweep = reeved->sweeps[i];
    const mainline::StatePath& path = line->paths[static_cast<std::size_t>(sweep.path)];
    const bool calm = rig.reeving.inputs->sweeps[i].wind_Pa == Vec3{};
    if (calm && path.loading == loading && sweep.running == running && (!state || path.state == *state)) return &sweep;
  }
  return nullptr;
}

RigPose pose_seen(const Rig& rig, const reeving::Sweep& sweep, double travel_m, double from_m, double to_m) {
  RigPose seen;
  seen.sweep = static_cast<std::size_t>(&sweep - rig.reeving.solved()->sweeps.data());
  seen.pose = pose_nearest(sweep, travel_m);
  const reeving::SweepInputs& given = rig.reeving.inputs->sweeps[seen.sweep];
  const reeving::Pose& pose = sweep.poses[seen.pose];
  seen.trolley = {pose.trolley, pose.attachment};
  seen.travel_m = pose.travel_m;
  seen.outlet_tension_N = pose.outlet_tension_N;
  seen.main_line = main_line_of(rig.frame, given, pose, from_m, to_m);
  PoseReader(rig, sweep, seen.pose).read(seen);
  return seen;
}

}  // namespace fairlead::views

#include "report/views/scene.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/mainline/cable.hpp"
#include "geometry/reeving/leg.hpp"
#include "report/words/states.hpp"

namespace fairlead::views {

namespace {

constexpr double beyond_m = 0.5;  // shown past the outermost thing
constexpr double sample_m = 0.1;  // of a main line's curve: at 1:20 a chord of it still lies within 0.01 mm
constexpr int leg_points = 121;

const mainline::StatePath& path_of(const mainline::MainLine& line, const reeving::Sweep& sweep) {
  return line.paths[static_cast<std::size_t>(sweep.path)];
}

/// The first sweep of a loading and way of running, in the state of the main line that `state` names if given.
const reeving::Sweep* find_sweep(const mainline::MainLine& line, const reeving::Reeving& reeved,
                                 mainline::Loading loading, reeving::Running running, std::optional<int> state = {}) {
  for (const reeving::Sweep& sweep : reeved.sweeps) {
    const mainline::StatePath& path = path_of(line, sweep);
    if (path.loading == loading && sweep.running == running && (!state || path.state == *state)) return &sweep;
  }
  return nullptr;
}

std::size_t pose_nearest(const reeving::Sweep& sweep, double travel_m) {
  std::size_t best = 0;
  for (std::size_t i = 0; i < sweep.poses.size(); ++i)
    if (std::abs(sweep.poses[i].travel_m - travel_m) < std::abs(sweep.poses[best].travel_m - travel_m)) best = i;
  return best;
}

/// A solved line between two chainages, with a point at its one wheel.
Curve3 curve_of(const Frame& frame, const mainline::Cable& cable, const mainline::Shape& shape, double wheel_m,
                double from_m, double to_m) {
  const double first = std::max(0.0, from_m - frame.chainage_of_origin_m);
  const double last = std::min(cable.span_m, to_m - frame.chainage_of_origin_m);
  std::vector<double> xs{wheel_m};
  const int pieces = std::max(1, static_cast<int>(std::ceil((last - first) / sample_m)));
  for (int i = 0; i <= pieces; ++i) xs.push_back(first + (last - first) * i / pieces);
  std::sort(xs.begin(), xs.end());
  Curve3 curve;
  for (double x : xs)
    curve.push_back(frame.origin + x * frame.along + mainline::line_at(cable, shape, x).z_m * frame.up);
  return curve;
}

/// The main line of a pose with one wheel on it: what presses there is the weight less the braking line's lift.
Curve3 main_line_of(const Frame& frame, const mainline::Cable& cable, const reeving::Pose& pose, double weight_N,
                    double from_m, double to_m) {
  const mainline::Load load{dot(pose.trolley - frame.origin, frame.along), weight_N - pose.pull_on_trolley_N.z};
  const auto shape = mainline::hang_rolling(cable, {&load, 1});
  return shape ? curve_of(frame, cable, *shape, load.x_m, from_m, to_m) : Curve3{};
}

RigPose pose_of(const Rig& rig, const reeving::Sweep& sweep, std::size_t index, double from_m, double to_m) {
  const reeving::Inputs& in = *rig.reeving.inputs;
  const auto which = static_cast<std::size_t>(&sweep - rig.reeving.solved()->sweeps.data());
  const reeving::SweepInputs& given = in.sweeps[which];
  const reeving::Pose& pose = sweep.poses[index];
  RigPose seen;
  seen.trolley = {pose.trolley, pose.attachment};
  seen.outlet_tension_N = pose.outlet_tension_N;
  seen.main_line =
      main_line_of(rig.frame, given.state.cable, pose, given.trolley_weight_N + given.rider_weight_N, from_m, to_m);
  const std::size_t legs = in.sheaves.size() + 1;
  for (std::size_t i = 0; i < legs; ++i) {
    const reeving::Leg& leg = sweep.legs[index * legs + i];
    seen.line.push_back(reeving::hanging_curve(leg, leg_points));
    seen.greatest_sag_m = std::max(seen.greatest_sag_m, leg.sag_m);
  }
  return seen;
}

std::optional<RiderSeen> rider_at(const Rig& rig, const Point3& wheel) {
  const auto& envelope = rig.layout.riders.envelope;
  if (!envelope) return std::nullopt;
  const Frame& f = rig.frame;
  const Vec3 half = 0.5 * envelope->length_m * f.along + 0.5 * envelope->width_m * f.across;
  return RiderSeen{wheel, wheel - half - envelope->below_m * f.up, wheel + half + envelope->above_m * f.up};
}

/// Where a rider's wheel is when it passes a chainage, between the two poses about it.
std::optional<Point3> wheel_passing(const Frame& frame, const reeving::Sweep& sweep, double chainage_m) {
  for (std::size_t i = 1; i < sweep.poses.size(); ++i) {
    const Point3 a = sweep.poses[i - 1].rider, b = sweep.poses[i].rider;
    const double from = frame.chainage_m(a), to = frame.chainage_m(b);
    if (from <= chainage_m && chainage_m <= to && to > from) return a + (chainage_m - from) / (to - from) * (b - a);
  }
  return std::nullopt;
}

void see_sheaves(const Rig& rig, Scene& scene) {
  for (std::size_t i = 0; i < rig.layout.sheaves.size(); ++i) {
    const Sheave& sheave = rig.layout.sheaves[i];
    if (!sheave.position) continue;
    SheaveSeen seen{static_cast<int>(i), *sheave.position, unit(sheave.axle), 0.5 * sheave.pitch_diameter_m, {}};
    if (const auto* anchor = std::get_if<AnchorId>(&sheave.on))
      seen.carrier = rig.layout.anchors[static_cast<std::size_t>(*anchor)].position;
    scene.sheaves.push_back(seen);
  }
}

/// Chainages of everything that makes the arrest; the main line's far support is not among them.
void see_extent(const Rig& rig, Scene& scene) {
  const Layout& layout = rig.layout;
  const Frame& frame = rig.frame;
  std::vector<double> all{layout.brake_trolley.rest_m, layout.brake_trolley.rest_m + layout.brake_trolley.travel_m,
                          frame.chainage_m(layout.brake_unit.outlet),
                          frame.chainage_m(layout.anchors[static_cast<std::size_t>(layout.main_line.to)].position)};
  const double half_m = layout.riders.envelope ? 0.5 * layout.riders.envelope->length_m : 0;
  for (const SheaveSeen& s : scene.sheaves) {
    all.push_back(frame.chainage_m(s.centre) - half_m);
    if (s.carrier) all.push_back(frame.chainage_m(*s.carrier));
  }
  if (layout.backup_brake) all.push_back(layout.backup_brake->engages_m);
  if (layout.landing) {
    all.push_back(layout.landing->platform_from_m);
    all.push_back(layout.landing->platform_to_m);
  }
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  scene.from_m = *low - beyond_m;
  scene.to_m = *high + beyond_m;
}

void see_anchors(const Rig& rig, Scene& scene) {
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t i = 0; i < rig.layout.anchors.size(); ++i) {
    AnchorSeen seen{static_cast<int>(i), rig.layout.anchors[i].position, {}};
    if (loads && loads->demands[i].force_N.pose >= 0)
      seen.governing_N = loads->cases[static_cast<std::size_t>(loads->demands[i].force_N.pose)].on_anchor_N[i];
    const double chainage = rig.frame.chainage_m(seen.position);
    if (chainage >= scene.from_m && chainage <= scene.to_m)
      scene.anchors.push_back(seen);
    else
      scene.anchors_outside.push_back(seen.index);
  }
}

void see_riders(const Rig& rig, const mainline::MainLine& line, const reeving::Reeving& reeved, int state,
                Scene& scene) {
  using mainline::Loading;
  using reeving::Running;
  const auto* light = find_sweep(line, reeved, Loading::lightest, Running::at_rest, state);
  if (light && !rig.reeved.empty()) {
    const Sheave& first = rig.layout.sheaves[static_cast<std::size_t>(rig.reeved.front())];
    if (const auto wheel = wheel_passing(rig.frame, *light, rig.frame.chainage_m(*first.position)))
      scene.rider_under_redirect = rider_at(rig, *wheel);
  }
  if (const auto* heavy = find_sweep(line, reeved, Loading::heaviest, Running::at_rest, state))
    scene.rider_at_contact = rider_at(rig, heavy->poses[static_cast<std::size_t>(heavy->rest_pose)].rider);
}

void see_state(const mainline::MainLine& line, int state, Scene& scene) {
  const mainline::State& drawn = line.states[static_cast<std::size_t>(state)];
  scene.state = words::name_of(line, drawn);
  scene.temperature_K = drawn.temperature_K;
}

/// The main line under the trolley's own weight, where the braking line is not known.
void see_main_line_alone(const Rig& rig, const mainline::MainLine& line, Scene& scene) {
  if (line.paths.empty()) return;
  const int state = line.paths.front().state;
  const mainline::Cable& cable = line.states[static_cast<std::size_t>(state)].cable;
  const BrakeTrolley& trolley = rig.layout.brake_trolley;
  const mainline::Load load{trolley.rest_m - rig.frame.chainage_of_origin_m, trolley.mass_kg * standard_gravity};
  const auto shape = mainline::hang_rolling(cable, {&load, 1});
  if (!shape) return;
  see_state(line, state, scene);
  const Vec3 offset = trolley.attachment;
  RigPose rest;
  rest.trolley.wheel = rig.frame.origin + load.x_m * rig.frame.along + shape->wheels[0].z_m * rig.frame.up;
  rest.trolley.attachment =
      rest.trolley.wheel + offset.x * rig.frame.along + offset.y * rig.frame.across + offset.z * rig.frame.up;
  rest.main_line = curve_of(rig.frame, cable, *shape, load.x_m, scene.from_m, scene.to_m);
  scene.horizontal_N = shape->pieces[0].H_N;
  scene.rest = std::move(rest);
}

void see_lines(const Rig& rig, Scene& scene) {
  const mainline::MainLine* line = rig.main_line.solved();
  const reeving::Reeving* reeved = rig.reeving.solved();
  if (!line) {
    scene.unsolved = rig.main_line.result->error().why;
    return;
  }
  using mainline::Loading;
  using reeving::Running;
  const auto* rest = reeved ? find_sweep(*line, *reeved, Loading::empty, Running::at_rest) : nullptr;
  if (!rest) {
    scene.unsolved = reeved ? "no pose of the empty trolley at rest" : rig.reeving.result->error().why;
    see_main_line_alone(rig, *line, scene);
    return;
  }
  const int state = path_of(*line, *rest).state;
  see_state(*line, state, scene);
  const auto at_mark = static_cast<std::size_t>(rest->rest_pose);
  scene.rest = pose_of(rig, *rest, at_mark, scene.from_m, scene.to_m);
  scene.horizontal_N = std::abs(dot(rest->poses[at_mark].end_support_N, rig.frame.along));
  if (const auto* full = find_sweep(*line, *reeved, Loading::heaviest, Running::paying_out, state))
    scene.full = pose_of(rig, *full, pose_nearest(*full, rig.layout.brake_trolley.travel_m), scene.from_m, scene.to_m);
  see_riders(rig, *line, *reeved, state, scene);
}

}  // namespace

std::optional<Point3> Scene::on_main_line(const RigPose& pose, double chainage_m) const {
  for (std::size_t i = 1; i < pose.main_line.size(); ++i) {
    const Point3 a = pose.main_line[i - 1], b = pose.main_line[i];
    const double from = rig->frame.chainage_m(a), to = rig->frame.chainage_m(b);
    if (from <= chainage_m && chainage_m <= to && to > from) return a + (chainage_m - from) / (to - from) * (b - a);
  }
  return std::nullopt;
}

Point3 Scene::at(double chainage_m, double across_m, double z_m) const {
  const Frame& f = rig->frame;
  Point3 p = f.origin + (chainage_m - f.chainage_of_origin_m) * f.along + across_m * f.across;
  p.z = z_m;
  return p;
}

Scene scene_of(const Rig& rig) {
  Scene scene;
  scene.rig = &rig;
  see_sheaves(rig, scene);
  see_extent(rig, scene);
  see_anchors(rig, scene);
  see_lines(rig, scene);
  return scene;
}

}  // namespace fairlead::views

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "geometry/layout/rider_shape.hpp"
#include "geometry/mainline/cable.hpp"
#include "report/views/scene_parts.hpp"
#include "report/words/states.hpp"

namespace fairlead::views {

namespace {

constexpr double beyond_m = 0.5;  // shown past the outermost thing

void see_sheaves(const Rig& rig, Scene& scene) {
  for (std::size_t i = 0; i < rig.layout.sheaves.size(); ++i) {
    const Sheave& sheave = rig.layout.sheaves[i];
    if (!sheave.position || sheave.mount != Mount::fixed) continue;
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
  const auto rider = shape_of(layout.riders);
  const double half_m = rider ? 0.5 * box_around(*rider).length_m : 0;
  for (const SheaveSeen& s : scene.sheaves) {
    all.push_back(frame.chainage_m(s.centre) - half_m);
    if (s.carrier) all.push_back(frame.chainage_m(*s.carrier));
  }
  const auto anchor = [&](AnchorId id) {
    all.push_back(frame.chainage_m(layout.anchors[static_cast<std::size_t>(id)].position));
  };
  for (const SupportLine& line : layout.support_lines) anchor(line.from), anchor(line.to);
  for (const Sheave& sheave : layout.sheaves)
    if (const auto* id = std::get_if<AnchorId>(&sheave.on); id && sheave.mount != Mount::fixed) {
      anchor(*id);
      all.push_back(all.back() - half_m);
    }
  for (const Line& line : layout.lines)
    for (const LineEnd* end : {&line.from, &line.to})
      if (const auto* id = std::get_if<AnchorId>(end)) anchor(*id);
  for (const ParallelLine& line : layout.parallel_lines) anchor(line.to);
  if (layout.main_line.to_back_anchor) anchor(*layout.main_line.to_back_anchor);
  if (layout.backup_brake) all.push_back(layout.backup_brake->engages_m);
  if (layout.landing) {
    all.push_back(layout.landing->platform_from_m);
    all.push_back(layout.landing->platform_to_m);
  }
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  scene.from_m = *low - beyond_m;
  scene.to_m = *high + beyond_m;
}

bool on_mount(const Rig& rig, const SheaveSeen& sheave) {
  return rig.layout.sheaves[static_cast<std::size_t>(sheave.index)].mount != Mount::fixed;
}

/// Moves those that swivel or hang free from some sheaves to others.
void take_mounted(const Rig& rig, std::vector<SheaveSeen>& from, std::vector<SheaveSeen>& to) {
  const auto first =
      std::stable_partition(from.begin(), from.end(), [&](const SheaveSeen& s) { return !on_mount(rig, s); });
  to.insert(to.end(), first, from.end());
  from.erase(first, from.end());
}

/// At rest and, as ghosts, at full travel.
void see_mounted(const Rig& rig, Scene& scene) {
  settle_mounted(scene);
  if (scene.full) take_mounted(rig, scene.full->sheaves, scene.ghosts);
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

void see_riders(const Rig& rig, int state, Scene& scene) {
  using mainline::Loading;
  using reeving::Running;
  const auto* light = find_sweep(rig, Loading::lightest, Running::at_rest, state);
  const SheaveSeen* redirect = first_redirect(scene);
  if (light && redirect)
    if (const auto passing = rider_passing(rig.frame, *light, rig.frame.chainage_m(redirect->centre)))
      scene.rider_under_redirect = rider_at(rig, passing->wheel);
  if (const auto* heavy = find_sweep(rig, Loading::heaviest, Running::at_rest, state))
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
  rest.main_line = curve_of(rig.frame, cable, *shape, scene.from_m, scene.to_m);
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
  const auto* rest = find_sweep(rig, Loading::empty, Running::at_rest);
  if (!rest) {
    scene.unsolved = reeved ? "no pose of the empty trolley at rest" : rig.reeving.result->error().why;
    see_main_line_alone(rig, *line, scene);
    return;
  }
  const int state = line->paths[static_cast<std::size_t>(rest->path)].state;
  see_state(*line, state, scene);
  see_cables(rig, state, scene);
  scene.rest = pose_seen(rig, *rest, 0, scene.from_m, scene.to_m);
  scene.horizontal_N = std::abs(dot(rest->poses[scene.rest->pose].end_support_N, rig.frame.along));
  if (const auto* full = find_sweep(rig, Loading::heaviest, Running::paying_out, state))
    scene.full = pose_seen(rig, *full, rig.layout.brake_trolley.travel_m, scene.from_m, scene.to_m);
  see_mounted(rig, scene);
  see_riders(rig, state, scene);
}

/// All but members and structures; within the chainages given, if they are more than it takes.
Scene see_rig(const Rig& rig, double from_m, double to_m) {
  Scene scene;
  scene.rig = &rig;
  see_sheaves(rig, scene);
  see_extent(rig, scene);
  scene.from_m = std::min(scene.from_m, from_m);
  scene.to_m = std::max(scene.to_m, to_m);
  see_anchors(rig, scene);
  see_lines(rig, scene);
  return scene;
}

}  // namespace

std::optional<RiderPassing> rider_passing(const Frame& frame, const reeving::Sweep& sweep, double chainage_m) {
  for (std::size_t i = 1; i < sweep.poses.size(); ++i) {
    const reeving::Pose &a = sweep.poses[i - 1], &b = sweep.poses[i];
    const double from = frame.chainage_m(a.rider), to = frame.chainage_m(b.rider);
    if (!(from <= chainage_m && chainage_m <= to && to > from)) continue;
    const double share = (chainage_m - from) / (to - from);
    return RiderPassing{a.rider + share * (b.rider - a.rider), a.travel_m + share * (b.travel_m - a.travel_m)};
  }
  return std::nullopt;
}

void settle_mounted(Scene& scene) {
  std::erase_if(scene.sheaves, [&](const SheaveSeen& s) { return on_mount(*scene.rig, s); });
  if (scene.rest) take_mounted(*scene.rig, scene.rest->sheaves, scene.sheaves);
}

std::optional<RiderSeen> rider_at(const Rig& rig, const Point3& wheel) {
  const auto shape = shape_of(rig.layout.riders);
  if (!shape) return std::nullopt;
  const RiderExtents box = box_around(*shape);
  const Frame& f = rig.frame;
  const Vec3 half = 0.5 * box.length_m * f.along + 0.5 * box.width_m * f.across;
  return RiderSeen{wheel, wheel - half - box.below_m * f.up, wheel + half + box.above_m * f.up, {}};
}

Curve3 RiderSeen::corners(const Frame& f) const {
  const Vec3 diagonal = high - low;
  const auto edge = [&](Vec3 way) { return dot(diagonal, way) * way; };
  Curve3 corners;
  for (const Vec3 length : {Vec3{}, edge(f.along)})
    for (const Vec3 width : {Vec3{}, edge(f.across)})
      for (const Vec3 height : {Vec3{}, edge(f.up)}) corners.push_back(low + length + width + height);
  return corners;
}

const SheaveSeen* first_redirect(const Scene& scene) {
  const Rig& rig = *scene.rig;
  if (!rig.reeving.inputs) return nullptr;
  const reeving::Inputs& in = *rig.reeving.inputs;
  const reeving::Line& pulling = in.lines[static_cast<std::size_t>(in.pulling)];
  if (pulling.sheaves == 0) return nullptr;
  const int index = rig.reeved[static_cast<std::size_t>(pulling.first_sheave)];
  const auto at = std::find_if(scene.sheaves.begin(), scene.sheaves.end(),
                               [index](const SheaveSeen& s) { return s.index == index; });
  return at == scene.sheaves.end() ? nullptr : &*at;
}

std::optional<Point3> at_chainage(const Frame& frame, const Curve3& curve, double chainage_m) {
  for (std::size_t i = 1; i < curve.size(); ++i) {
    const Point3 a = curve[i - 1], b = curve[i];
    const double from = frame.chainage_m(a), to = frame.chainage_m(b);
    const auto [low, high] = std::minmax(from, to);
    if (low <= chainage_m && chainage_m <= high && high > low) return a + (chainage_m - from) / (to - from) * (b - a);
  }
  return std::nullopt;
}

std::optional<Point3> Scene::on_main_line(const RigPose& pose, double chainage_m) const {
  return at_chainage(rig->frame, pose.main_line, chainage_m);
}

Point3 Scene::at(double chainage_m, double across_m, double z_m) const {
  const Frame& f = rig->frame;
  Point3 p = f.origin + (chainage_m - f.chainage_of_origin_m) * f.along + across_m * f.across;
  p.z = z_m;
  return p;
}

Scene scene_of(const Rig& rig, MemberReach reach) {
  constexpr double nowhere = std::numeric_limits<double>::infinity();
  Scene scene = see_rig(rig, nowhere, -nowhere);
  see_members(rig, reach, scene);
  double from_m = scene.from_m, to_m = scene.to_m;
  for (const MemberSeen& member : scene.members) {
    // An end that the views did not show before needs room about it as everything else has.
    for (const double share : {member.in_elevation, member.in_plan}) {
      const double chainage_m = rig.frame.chainage_m(member.seen_to(share));
      if (chainage_m < scene.from_m) from_m = std::min(from_m, chainage_m - beyond_m);
      if (chainage_m > scene.to_m) to_m = std::max(to_m, chainage_m + beyond_m);
    }
  }
  if (from_m < scene.from_m || to_m > scene.to_m) {
    std::vector<MemberSeen> members = std::move(scene.members);
    scene = see_rig(rig, from_m, to_m);
    scene.members = std::move(members);
  }
  see_structures(rig, scene);
  return scene;
}

std::vector<MemberReach> member_reaches(const Rig& rig) {
  constexpr double stub_m = 1.5, told_apart_m = 0.25, nowhere = std::numeric_limits<double>::infinity();
  std::vector<double> beyond = ends_beyond(rig, see_rig(rig, nowhere, -nowhere));
  std::sort(beyond.begin(), beyond.end(), std::greater<>{});
  std::vector<MemberReach> reaches;
  for (const double m : beyond)
    if (m > 0 && (reaches.empty() || m < reaches.back().whole_m - told_apart_m)) reaches.push_back({m, stub_m});
  if (!reaches.empty()) reaches.push_back({0, stub_m});
  return reaches;
}

}  // namespace fairlead::views

#include "report/views/instant.hpp"

#include <algorithm>

#include "report/drawing/overlap.hpp"
#include "report/views/detail.hpp"
#include "report/views/rig_symbols.hpp"
#include "report/views/scene_parts.hpp"

namespace fairlead::views {

using namespace drawing;

namespace {

Point3 between(Point3 a, Point3 b, double share) { return a + share * (b - a); }

void blend(Curve3& curve, const Curve3& other, double share) {
  for (std::size_t i = 0; i < curve.size() && i < other.size(); ++i) curve[i] = between(curve[i], other[i], share);
}

/// Straight between two poses of one sweep, as the clearances take it. The main line is left as it was.
RigPose blended(RigPose a, const RigPose& b, double share) {
  a.trolley = {between(a.trolley.wheel, b.trolley.wheel, share),
               between(a.trolley.attachment, b.trolley.attachment, share)};
  for (std::size_t l = 0; l < a.lines.size(); ++l) {
    for (std::size_t i = 0; i < a.lines[l].legs.size(); ++i) blend(a.lines[l].legs[i], b.lines[l].legs[i], share);
    for (std::size_t i = 0; i < a.lines[l].wraps.size(); ++i) blend(a.lines[l].wraps[i], b.lines[l].wraps[i], share);
  }
  for (std::size_t i = 0; i < a.blocks.size(); ++i) {
    a.blocks[i].at = between(a.blocks[i].at, b.blocks[i].at, share);
    blend(a.blocks[i].body, b.blocks[i].body, share);
    blend(a.blocks[i].wheels, b.blocks[i].wheels, share);
  }
  for (std::size_t i = 0; i < a.sheaves.size(); ++i)
    a.sheaves[i].centre = between(a.sheaves[i].centre, b.sheaves[i].centre, share);
  for (std::size_t i = 0; i < a.dead_ends.size(); ++i)
    a.dead_ends[i].at = between(a.dead_ends[i].at, b.dead_ends[i].at, share);
  return a;
}

/// The parts of a curve between two chainages.
std::vector<Curve3> within(const Frame& frame, const Curve3& curve, double from_m, double to_m) {
  std::vector<Curve3> parts;
  bool open = false;
  for (std::size_t i = 1; i < curve.size(); ++i) {
    const Point3 a = curve[i - 1], b = curve[i];
    const double at_a = frame.chainage_m(a), at_b = frame.chainage_m(b);
    const auto [low, high] = std::minmax({at_a, at_b});
    if (high < from_m || low > to_m) {
      open = false;
      continue;
    }
    const auto share = [&](double chainage) {
      return at_b == at_a ? 0.0 : std::clamp((chainage - at_a) / (at_b - at_a), 0.0, 1.0);
    };
    const double enter = at_a < from_m ? share(from_m) : at_a > to_m ? share(to_m) : 0;
    const double leave = at_b < from_m ? share(from_m) : at_b > to_m ? share(to_m) : 1;
    if (!open) parts.push_back({between(a, b, enter)});
    parts.back().push_back(between(a, b, leave));
    open = leave == 1;
  }
  return parts;
}

std::vector<Paper> seen(const View& view, const Curve3& curve) {
  std::vector<Paper> path;
  for (const Point3& p : curve) path.push_back(view.of(p));
  return simplified(path);
}

/// Widens the box a rider lies in.
void take_in(const Frame& f, RiderSeen& rider, Point3 p) {
  for (const Vec3& way : {f.along, f.across, f.up}) {
    const double under_m = fairlead::dot(p - rider.low, way) - rider.margin_m,
                 over_m = fairlead::dot(p - rider.high, way) + rider.margin_m;
    if (under_m < 0) rider.low = rider.low + under_m * way;
    if (over_m > 0) rider.high = rider.high + over_m * way;
  }
}

View turned(const Instant& instant, Vec3 right, double scale, Paper at) {
  View view;
  view.right = right;
  view.up = instant.scene.rig->frame.up;
  view.origin = instant.rider;
  view.at = at;
  view.scale = scale;
  return view;
}

}  // namespace

Instant instant_of(const Scene& scene, std::size_t index, double travel_m, const clearance::RiderHeld& held) {
  const Rig& rig = *scene.rig;
  const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[index];
  std::size_t after = 0;
  while (after + 1 < sweep.poses.size() && sweep.poses[after].travel_m < travel_m) ++after;
  const std::size_t before = after > 0 ? after - 1 : 0;
  const reeving::Pose &a = sweep.poses[before], &b = sweep.poses[after];
  const double share = after > before ? (travel_m - a.travel_m) / (b.travel_m - a.travel_m) : 0;
  Instant instant{scene, between(a.rider, b.rider, share)};
  instant.scene.rest = blended(pose_seen(rig, sweep, a.travel_m, scene.from_m, scene.to_m),
                               pose_seen(rig, sweep, b.travel_m, scene.from_m, scene.to_m), share);
  reeving::Pose here = a;
  here.travel_m = travel_m;
  here.rider = instant.rider;
  here.trolley = instant.scene.rest->trolley.wheel;
  here.pull_on_trolley_N = a.pull_on_trolley_N + share * (b.pull_on_trolley_N - a.pull_on_trolley_N);
  instant.scene.rest->main_line =
      main_line_of(rig.frame, rig.reeving.inputs->sweeps[index], here, scene.from_m, scene.to_m);
  instant.scene.full.reset();
  instant.scene.ghosts.clear();
  settle_mounted(instant.scene);
  for (MemberSeen& member : instant.scene.members) member.in_elevation = member.in_plan = 1;
  instant.scene.rider_under_redirect = rider_at(rig, instant.rider);
  if (RiderSeen* rider = instant.scene.rider_under_redirect ? &*instant.scene.rider_under_redirect : nullptr;
      rider && !held.hulls.empty()) {
    rider->leaning = held.hulls;
    rider->margin_m = held.margin_m;
    for (const Curve3& corners : rider->leaning)
      for (const Point3& corner : corners) take_in(rig.frame, *rider, corner);
  }
  instant.scene.rider_at_contact.reset();
  for (AnchorSeen& anchor : instant.scene.anchors) anchor.governing_N = {};
  return instant;
}

namespace {

/// The nearest of the passages under a redirect that clearances were solved for; null where there is none.
const clearance::Passing* nearest_under(const Rig& rig, int sheave) {
  const clearance::Clearances* solved = rig.clearance.solved();
  const clearance::Passing* nearest = nullptr;
  for (std::size_t i = 0; solved && i < solved->passings.size(); ++i) {
    const clearance::Passing& passing = solved->passings[i];
    if (passing.other.kind != clearance::Thing::Kind::sheave || passing.gaps.empty() ||
        rig.reeved[static_cast<std::size_t>(passing.other.index)] != sheave)
      continue;
    if (!nearest || passing.gaps.front().least_m.value < nearest->gaps.front().least_m.value) nearest = &passing;
  }
  return nearest;
}

}  // namespace

std::optional<UnderRedirect> under_redirect(const Scene& scene) {
  const Rig& rig = *scene.rig;
  const SheaveSeen* redirect = first_redirect(scene);
  if (!redirect || !rig.reeving.solved()) return std::nullopt;
  if (const auto* passing = nearest_under(rig, redirect->index))
    return UnderRedirect{instant_of(scene, static_cast<std::size_t>(passing->sweep), passing->travel_m, passing->rider),
                         passing->sweep, passing->travel_m};
  const auto* lightest = find_sweep(rig, mainline::Loading::lightest, reeving::Running::at_rest);
  const auto passing = lightest ? rider_passing(rig.frame, *lightest, *scene.section_m) : std::nullopt;
  if (!passing) return std::nullopt;
  const auto sweep = lightest - rig.reeving.solved()->sweeps.data();
  return UnderRedirect{instant_of(scene, static_cast<std::size_t>(sweep), passing->travel_m, {}),
                       static_cast<int>(sweep), passing->travel_m};
}

View section_view(const Instant& instant, double scale, Paper at) {
  View view = turned(instant, -1.0 * instant.scene.rig->frame.across, scale, at);
  view.name = "section";
  return view;
}

View side_view(const Instant& instant, double scale, Paper at) {
  View view = turned(instant, instant.scene.rig->frame.along, scale, at);
  view.name = "side";
  return view;
}

void draw_side(const Canvas& canvas, const Instant& instant, const View& view, const Box& frame) {
  Drawing whole;
  draw_rig(Canvas(whole, canvas.font()), instant.scene, view, Facing::elevation);
  draw_clipped(canvas, whole, frame.grown(-narrow_mm));
}

bool in_section(const Instant& instant, const StructureSeen& structure, double reach_m) {
  if (structure.kind == StructureKind::plane) return true;
  bool before = false, after = false;
  for (const Point3& p : structure.points) {
    const double beyond_m = instant.scene.rig->frame.chainage_m(p) - instant.scene.rig->frame.chainage_m(instant.rider);
    if (std::abs(beyond_m) <= reach_m) return true;
    (beyond_m < 0 ? before : after) = true;
  }
  return before && after;
}

void draw_section(const Canvas& canvas, const Instant& instant, const View& view, const Box& frame, double reach_m) {
  const Scene& scene = instant.scene;
  const Frame& f = scene.rig->frame;
  const RigPose& pose = *scene.rest;
  const double here = f.chainage_m(instant.rider), from_m = here - reach_m, to_m = here + reach_m;
  const auto near = [&](Point3 p) { return f.chainage_m(p) >= from_m && f.chainage_m(p) <= to_m; };
  Drawing whole;
  const Canvas draw(whole, canvas.font());
  for (const StructureSeen& structure : scene.structures)
    if (in_section(instant, structure, reach_m)) draw_structure(draw, scene, structure, view, Facing::section);
  if (scene.rider_under_redirect)
    draw_rider(draw, f, view, *scene.rider_under_redirect, scene.rig->layout.riders.hanging_length_m,
               Facing::elevation);
  for (const BlockSeen& block : pose.blocks)
    if (near(block.at)) draw_block(draw, view, block, {medium_mm, LineType::continuous, Layer::sheaves});
  for (const SheaveSeen& s : scene.sheaves)
    if (near(s.centre)) draw_sheave(draw, view, s, sheave_pen);
  for (const SheaveSeen& s : pose.sheaves)
    if (near(s.centre)) draw_sheave(draw, view, s, sheave_pen);
  for (const LineSeen& line : pose.lines)
    for (const Curve3& leg : line.legs)
      for (const Curve3& part : within(f, leg, from_m, to_m)) draw.line(seen(view, part), standing_pen(line.role));
  for (const MemberSeen& member : scene.members)
    for (const Curve3& part : within(f, {member.from, member.to}, from_m, to_m)) {
      draw.line(seen(view, part), member_pen);
      if (part.back() == member.to) draw_far_end(draw, view.of(member.to));
    }
  for (const AnchorSeen& anchor : scene.anchors)
    if (near(anchor.position)) draw_anchor(draw, view.of(anchor.position));
  draw.circle(view.of(instant.rider), 0.5, {0, LineType::continuous, Layer::main_line}, Fill::ink);
  draw_clipped(canvas, whole, frame.grown(-narrow_mm));
}

}  // namespace fairlead::views

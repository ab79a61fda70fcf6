#include <algorithm>
#include <cmath>
#include <numbers>

#include "report/views/scene_parts.hpp"

namespace fairlead::views {

namespace {

constexpr double about_m = 3;  // shown of what stands beside the rig

}  // namespace

Reach3 reach_of(const Rig& rig, const Scene& scene) {
  std::vector<Point3> all{rig.layout.brake_unit.outlet};
  const auto add = [&](const Curve3& curve) { all.insert(all.end(), curve.begin(), curve.end()); };
  for (const auto* pose : {&scene.rest, &scene.full})
    if (*pose) {
      add((*pose)->main_line);
      for (const LineSeen& line : (*pose)->lines)
        for (const Curve3& leg : line.legs) add(leg);
    }
  for (const SheaveSeen& s : scene.sheaves) add({s.centre});
  for (const AnchorSeen& a : scene.anchors) add({a.position});
  for (const MemberSeen& m : scene.members) {
    // As far aside as the plan follows it, as high and low as the elevation does.
    Point3 end = m.seen_to(m.in_plan);
    end.z = m.seen_to(m.in_elevation).z;
    add({end});
  }
  for (const auto* rider : {&scene.rider_under_redirect, &scene.rider_at_contact})
    if (*rider) add({(*rider)->low, (*rider)->high});
  if (rig.layout.landing) all.push_back(scene.at(scene.to_m, 0, rig.layout.landing->platform_level_m));
  Reach3 reach{all.front().z, all.front().z, rig.frame.across_m(all.front()), rig.frame.across_m(all.front())};
  for (const Point3& p : all) {
    const double chainage = rig.frame.chainage_m(p), across = rig.frame.across_m(p);
    if (!(chainage >= scene.from_m && chainage <= scene.to_m)) continue;
    reach.low_m = std::min(reach.low_m, p.z);
    reach.high_m = std::max(reach.high_m, p.z);
    reach.right_m = std::min(reach.right_m, across);
    reach.left_m = std::max(reach.left_m, across);
  }
  return reach;
}

namespace {

/// Both ends of a cylinder, as many points as make its outline.
Curve3 post_points(const Structure& post) {
  constexpr int round = 24;
  const Vec3 axis = unit(post.to->value - post.from->value);
  const Vec3 e = unit(cross(axis, std::abs(axis.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0})), f = cross(axis, e);
  Curve3 points;
  for (const Point3& end : {post.from->value, post.to->value})
    for (int i = 0; i < round; ++i) {
      const double angle = 2 * std::numbers::pi * i / round;
      points.push_back(end + 0.5 * *post.diameter_m * (std::cos(angle) * e + std::sin(angle) * f));
    }
  return points;
}

StructureSeen seen(const Structure& structure, int index) {
  StructureSeen out{index, structure.kind, {}, {}, {}};
  switch (structure.kind.value) {
    case StructureKind::box: {
      const double bearing = structure.bearing_rad;
      const Vec3 length{std::cos(bearing), std::sin(bearing), 0}, up{0, 0, 1};
      out.points = corners_of(*structure.centre, *structure.size_m, length, cross(up, length), up);
      break;
    }
    case StructureKind::post:
      out.points = post_points(structure);
      break;
    case StructureKind::plane:
      out.through = *structure.through;
      out.normal = unit(structure.normal->value);
      break;
    case StructureKind::scan:
      break;
  }
  return out;
}

/// The corners of what is shown.
Curve3 shown_corners(const Scene& scene) {
  Curve3 corners;
  for (double chainage : {scene.from_m, scene.to_m})
    for (double across : {scene.reach.right_m, scene.reach.left_m})
      for (double z : {scene.reach.low_m, scene.reach.high_m}) corners.push_back(scene.at(chainage, across, z));
  return corners;
}

bool within(const Scene& scene, const StructureSeen& structure) {
  const Frame& frame = scene.rig->frame;
  if (structure.kind == StructureKind::plane) {
    bool in_front = false, behind = false;
    for (const Point3& p : shown_corners(scene))
      (dot(p - structure.through, structure.normal) > 0 ? in_front : behind) = true;
    return in_front && behind;
  }
  const auto meets = [&](auto coordinate, double low, double high) {
    double least = coordinate(structure.points[0]), greatest = least;
    for (const Point3& p : structure.points) {
      least = std::min(least, coordinate(p));
      greatest = std::max(greatest, coordinate(p));
    }
    return least <= high && greatest >= low;
  };
  return meets([&](Point3 p) { return frame.chainage_m(p); }, scene.from_m, scene.to_m) &&
         meets([&](Point3 p) { return frame.across_m(p); }, scene.reach.right_m, scene.reach.left_m) &&
         meets([](Point3 p) { return p.z; }, scene.reach.low_m, scene.reach.high_m);
}

}  // namespace

void see_structures(const Rig& rig, Scene& scene) {
  const Reach3 rig_alone = reach_of(rig, scene);
  scene.reach = {rig_alone.low_m - about_m, rig_alone.high_m + about_m, rig_alone.right_m - about_m,
                 rig_alone.left_m + about_m};
  if (const SheaveSeen* redirect = first_redirect(scene)) scene.section_m = rig.frame.chainage_m(redirect->centre);
  for (std::size_t i = 0; i < rig.layout.structures.size(); ++i) {
    if (rig.layout.structures[i].kind == StructureKind::scan) {
      scene.scans.push_back(scan_seen(scene, static_cast<int>(i)));
      continue;
    }
    StructureSeen structure = seen(rig.layout.structures[i], static_cast<int>(i));
    if (within(scene, structure))
      scene.structures.push_back(std::move(structure));
    else
      scene.structures_outside.push_back(structure.index);
  }
}

}  // namespace fairlead::views

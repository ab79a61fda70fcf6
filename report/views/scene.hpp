// What of a rig is to be seen at its arrest end, in the site frame: the same for every view.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "report/dossier.hpp"

namespace fairlead::views {

using Curve3 = std::vector<Point3>;

/// The brake trolley: its wheel on the main line and the braking line's end on it.
struct TrolleyPlace {
  Point3 wheel, attachment;
};

/// What a line is there for.
enum class Role { braking, reduction, support };

/// A line of the reeving as it hangs at one pose.
struct LineSeen {
  int line{};  ///< index into the reeving's lines
  Role role{};
  std::vector<Curve3> legs;   ///< from the end nearer the trolley
  std::vector<Curve3> wraps;  ///< between them, round the sheaves; two points or more each
  double greatest_sag_m{};
};

struct SheaveSeen {
  int index{};  ///< into layout.sheaves
  Point3 centre;
  Vec3 axle;  ///< unit
  double radius_m{};
  std::optional<Point3> carrier;  ///< what it hangs from, where that is a point
};

/// A travelling block at one pose.
struct BlockSeen {
  int index{};  ///< into layout.blocks
  Point3 at;
  std::vector<Point3> body;    ///< corners of its box; empty where the layout gives no size
  std::vector<Point3> wheels;  ///< where it rolls on a support line
};

/// The end of a line that neither the brake trolley nor the brake unit holds.
struct DeadEnd {
  int line{};  ///< index into the reeving's lines
  Point3 at;
};

/// Everything that moves, at one pose.
struct RigPose {
  Curve3 main_line;  ///< over the scene's chainages
  TrolleyPlace trolley;
  std::vector<LineSeen> lines;
  std::vector<BlockSeen> blocks;
  std::vector<SheaveSeen> sheaves;  ///< those on blocks and on mounts that let them turn
  std::vector<DeadEnd> dead_ends;
  double travel_m{}, outlet_tension_N{};
  std::size_t sweep{}, pose{};  ///< of the reeving, where lines are not empty

  /// The line to the brake unit; none where the lines are not solved.
  const LineSeen* braking() const;
};

/// A cable beside the arrest system, over the scene's chainages.
struct CableSeen {
  std::string name;  ///< "Parallel line M2"
  double diameter_m{};
  Curve3 curve;
};

struct AnchorSeen {
  int index{};  ///< into layout.anchors
  Point3 position;
  Vec3 governing_N;  ///< of the case that governs it; zero where none is known
};

/// A leg, guy or pole that holds an anchor's point: all of it, and how much of the way to its far end the views follow
/// it; 1: to its end.
struct MemberSeen {
  int index{};      ///< into layout.members
  Point3 from, to;  ///< the anchor's point; where it is fixed
  double in_elevation = 1, in_plan = 1;

  Point3 seen_to(double share) const { return share < 1 ? from + share * (to - from) : to; }
  bool cut() const { return in_elevation < 1 || in_plan < 1; }
};

/// How far views go for the far ends of members.
struct MemberReach {
  double whole_m{};  ///< along, across or up: to ends no farther than this beyond everything else
  double stub_m{};   ///< for the others this far beyond all that
};

/// What a rider can reach, hanging from a wheel.
struct RiderSeen {
  Point3 wheel;
  Point3 low, high;             ///< opposite corners along the line's own directions of the box it lies in
  std::vector<Curve3> leaning;  ///< at an instant, as it was searched: corners of hulls; none: upright
  double margin_m{};            ///< all so near such a hull belongs to it

  /// Of the box; an index counts 4 for the side toward the landing, 2 for the left and 1 for the upper one.
  Curve3 corners(const Frame&) const;
};

/// A box or post by points whose hull is its outline in every view; a plane by its own words.
struct StructureSeen {
  int index{};  ///< into layout.structures
  StructureKind kind{};
  Curve3 points;
  Point3 through;  ///< of a plane
  Vec3 normal;     ///< of a plane: unit, out of the solid
};

/// What a view shows of a scan: marks on paper stay few, however dense it is. Of triangles short strokes where they cut
/// a plane, in elevation the main line's own, in plan the level of the rest mark and in section that of the section; of
/// points those near that plane, each a stroke of no length.
struct ScanSeen {
  int index{};  ///< into layout.structures
  std::vector<std::array<Point3, 2>> in_elevation, in_plan, in_section;
};

/// How far structures are shown about the rig.
struct Reach3 {
  double low_m{}, high_m{};    ///< z
  double right_m{}, left_m{};  ///< across
};

/// Where views too long for a sheet are broken off: both parts show the line and a little beyond it.
struct MatchLine {
  double chainage_m{};
  std::string letters;     ///< "M-M"
  std::size_t beyond = 1;  ///< number of the sheet that goes on
};

struct Scene {
  const Rig* rig{};
  double from_m{}, to_m{};                 ///< chainages shown
  std::optional<MatchLine> before, after;  ///< of a part; its own is what lies between them
  Reach3 reach;
  std::optional<double> section_m;         ///< chainage of the first redirect, where the section across the line is cut
  bool surroundings = true;                ///< platform, backup brake, members and the anchors' loads are shown too
  std::optional<RigPose> rest;             ///< empty, at its rest mark, line at rest
  std::optional<RigPose> full;             ///< heaviest rider, end of the planned travel, peak tension
  std::string state;                       ///< which state of the main line both are drawn in
  double temperature_K{}, horizontal_N{};  ///< of it, with the empty trolley
  std::vector<SheaveSeen> sheaves;         ///< those that stand still, and at rest those on mounts
  std::vector<CableSeen> cables;
  std::vector<SheaveSeen> ghosts;  ///< those on mounts, where they hang at full travel
  std::vector<AnchorSeen> anchors;
  std::vector<MemberSeen> members;  ///< of the anchors shown
  std::vector<StructureSeen> structures;
  std::vector<int> structures_outside;            ///< indices of those beyond `reach`
  std::vector<ScanSeen> scans;                    ///< all of them, also those of which nothing is to be seen
  std::vector<int> anchors_outside;               ///< indices of those beyond the chainages shown
  std::optional<RiderSeen> rider_under_redirect;  ///< lightest, highest on the line
  std::optional<RiderSeen> rider_at_contact;      ///< heaviest, lowest on the line
  std::string unsolved;                           ///< why lines are missing; empty when nothing is

  /// A point on a hanging main line at a chainage; none beyond the ends of the curve.
  std::optional<Point3> on_main_line(const RigPose&, double chainage_m) const;
  Point3 at(double chainage_m, double across_m, double z_m) const;
  bool is_part() const { return before || after; }
};

/// Where a curve passes a chainage, the first such place; none beyond its ends.
std::optional<Point3> at_chainage(const Frame&, const Curve3&, double chainage_m);

Scene scene_of(const Rig&, MemberReach = {});

/// How far views may go for members, the farthest first; none where no member runs out of them.
std::vector<MemberReach> member_reaches(const Rig&);

/// Sheaves on mounts stand where they hang in the scene's pose at rest, in place of wherever they stood before.
void settle_mounted(Scene&);

/// The redirect that the line from the trolley meets first.
const SheaveSeen* first_redirect(const Scene&);

/// The pose of a sweep whose travel is nearest, as the scene's other poses are seen.
RigPose pose_seen(const Rig&, const reeving::Sweep&, double travel_m, double from_m, double to_m);

/// The first sweep of a loading and way of running without wind, in the state of the main line that `state` names if
/// given.
const reeving::Sweep* find_sweep(const Rig&, mainline::Loading, reeving::Running, std::optional<int> state = {});

/// The envelope of a rider whose wheel is there; none where the layout gives none.
std::optional<RiderSeen> rider_at(const Rig&, const Point3& wheel);

}  // namespace fairlead::views

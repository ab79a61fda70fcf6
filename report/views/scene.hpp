// What of a rig is to be seen at its arrest end, in the site frame: the same for every view.
#pragma once

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

/// Main line, trolley and braking line of one pose.
struct RigPose {
  Curve3 main_line;  ///< over the scene's chainages
  TrolleyPlace trolley;
  std::vector<Curve3> line;  ///< legs from the trolley to the unit, as they hang
  double outlet_tension_N{}, greatest_sag_m{};
};

struct SheaveSeen {
  int index{};  ///< into layout.sheaves
  Point3 centre;
  Vec3 axle;  ///< unit
  double radius_m{};
  std::optional<Point3> carrier;
};

struct AnchorSeen {
  int index{};  ///< into layout.anchors
  Point3 position;
  Vec3 governing_N;  ///< of the case that governs it; zero where none is known
};

/// The box a rider can reach, hanging from a wheel.
struct RiderSeen {
  Point3 wheel;
  Point3 low, high;  ///< opposite corners along the line's own directions
};

struct Scene {
  const Rig* rig{};
  double from_m{}, to_m{};                 ///< chainages shown
  std::optional<RigPose> rest;             ///< empty, at its rest mark, line at rest
  std::optional<RigPose> full;             ///< heaviest rider, end of the planned travel, peak tension
  std::string state;                       ///< which state of the main line both are drawn in
  double temperature_K{}, horizontal_N{};  ///< of it, with the empty trolley
  std::vector<SheaveSeen> sheaves;
  std::vector<AnchorSeen> anchors;
  std::vector<int> anchors_outside;               ///< indices of those beyond the chainages shown
  std::optional<RiderSeen> rider_under_redirect;  ///< lightest, highest on the line
  std::optional<RiderSeen> rider_at_contact;      ///< heaviest, lowest on the line
  std::string unsolved;                           ///< why lines are missing; empty when nothing is

  /// A point on a hanging main line at a chainage; none beyond the ends of the curve.
  std::optional<Point3> on_main_line(const RigPose&, double chainage_m) const;
  Point3 at(double chainage_m, double across_m, double z_m) const;
};

Scene scene_of(const Rig&);

}  // namespace fairlead::views

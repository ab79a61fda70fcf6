// The sections of the arrest: [brake_unit], [brake_trolley], [backup_brake]. Their tables: brake_fields.hpp.
#pragma once

#include "geometry/layout/given.hpp"
#include "geometry/quantity/curve.hpp"

namespace fairlead {

/// Drag that peaks at the critical line speed.
struct EddyDrag {
  Real peak_N, critical_speed_m_per_s;
};

/// A brake unit before it has a place.
struct UnplacedUnit {
  Real extension_limit_m, rest_extension_m;
  std::optional<Real> line_speed_limit_m_per_s;
  std::optional<Given<Range>> rider_mass_kg;
  Given<Curve> retraction_N;               ///< over extension
  std::optional<Given<Curve>> magnetic_N;  ///< over line speed; exactly one of this and eddy
  std::optional<EddyDrag> eddy;
  Real tolerance;                   ///< of the magnetic tension, a ratio
  std::optional<Real> return_drag;  ///< share of it that also acts while line is drawn in; absent: not known
  Real force_left;                  ///< share of it that is left when the unit is hot, wet or worn
  Real moving_mass_kg;              ///< of its rotor and drum, as felt at the line
  Place place{};
};

struct BrakeUnit : UnplacedUnit {
  std::optional<Words> serial;
  AnchorId on{};
  Place on_place;
  Given<Point3> outlet;             ///< where the line leaves it
  Given<Vec3> axis;                 ///< direction out of the outlet
  std::optional<Limit> lead_angle;  ///< greatest angle of the line off the axis
  std::optional<Words> attitude;    ///< how it is mounted
  std::optional<Real> mass_kg;
  std::optional<Given<Date>> certificate_due;
};

/// A brake trolley before it has a place.
struct UnplacedTrolley {
  Real mass_kg;
  Real static_resistance_N;  ///< to be overcome before it rolls on the level, besides the rolling resistance
  std::optional<Given<bool>> held_back;          ///< a device keeps it from rolling back until it is released
  std::optional<Given<bool>> couples;            ///< the rider trolley stays with it from contact on
  std::optional<Real> bumper_stiffness_N_per_m;  ///< of what gives between the trolleys; absent: they meet rigidly
  std::optional<Real> bumper_give_m;             ///< how far it can be pressed; there with the stiffness
  Real bumper_damping;                           ///< over the critical; means nothing without the stiffness
  Place place{};
};

struct BrakeTrolley : UnplacedTrolley {
  Real rest_m;                       ///< chainage of the rest mark
  Real travel_m;                     ///< planned, from the rest mark
  Given<Vec3> attachment;            ///< along, across, up from the wheel on the main line to the line's end
  std::optional<Limit> pull_angle;   ///< of the line's pull off the trolley's track, the main line's direction there
  std::optional<Limit> side_pull;    ///< of the line's pull off the vertical plane of the main line
  std::optional<Real> wheelbase_m;   ///< between its outermost wheels, along the main line
  std::optional<Real> wll_N, mbs_N;  ///< of its attachment; at most one
};

/// A backup brake before what holds it has a place.
struct UnplacedBackup {
  Words description;
  Real engages_m;  ///< chainage
  std::optional<Real> stroke_m;
  std::optional<Given<Curve>> resistance_N;  ///< to the trolley, over compression from 0 to the stroke or beyond
  Place place{};
};

struct BackupBrake : UnplacedBackup {
  std::optional<AnchorId> on;   ///< what holds it
  std::optional<Real> force_N;  ///< most it pulls that anchor, downstream along the main line where it engages
  Place on_place{};
};

}  // namespace fairlead

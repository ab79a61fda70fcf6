// The sections [riders], [approach] and [landing]: who arrives, where from, and where they step off. Their tables:
// riders_fields.hpp.
#pragma once

#include <memory>

#include "geometry/layout/given.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

/// What a hanging rider can reach, from the rider trolley's wheel on the main line.
struct Envelope {
  Real width_m;                      ///< across, whole
  Real length_m;                     ///< along, whole
  Real above_m;                      ///< highest reach above the main line
  Real below_m;                      ///< lowest reach below the main line
  std::optional<Real> sideways_rad;  ///< most it leans to either side as the rider swings there
  Place place{};
};

/// The same by the reach of hands and feet, from the vertical through the wheel: the shape is in rider_shape.hpp.
struct RiderReach {
  Real up_m, down_m;                 ///< highest reach above the main line and lowest below
  Real forward_m, back_m, side_m;    ///< toward the landing, away from it, and to either side
  Real shoulders_m;                  ///< of the rider below the main line, < down_m; arms reach up about them
  Real margin_m;                     ///< around all of it
  std::optional<Real> sideways_rad;  ///< as above
  Place place{};
};

/// The same as the convex hull of a mesh: x toward the landing, y to the left, z up, zero at the wheel.
struct RiderBody {
  Words file;  ///< as written; relative to the layout file's directory
  Given<PointsUnit> unit;
  Real margin_m;                     ///< around all of it
  std::optional<Real> sideways_rad;  ///< as above
  /// Corners of what its file holds, along, across and up, m; everything in the file lies within `beyond_m` of their
  /// hull. Shared by all copies of a layout.
  std::shared_ptr<const std::vector<Vec3>> corners = std::make_shared<const std::vector<Vec3>>();
  double beyond_m{};
  Place place{};
};

struct Riders {
  Given<Range> mass_kg;
  Real trolley_mass_kg, hanging_length_m;
  std::optional<Given<Range>> arrival_speed_m_per_s;  ///< measured at the trolley; without it there is an Approach
  std::optional<Given<Range>> rolling_resistance;     ///< of both trolleys, over the load on their wheels
  std::optional<Real> drag_area_m2;                   ///< drag coefficient times frontal area
  std::optional<Real> lanyard_stiffness_N_per_m;      ///< of what gives at contact; absent: nothing does
  Real lanyard_damping;                               ///< over the critical; means nothing without the stiffness
  std::optional<Envelope> envelope;                   ///< of these three at most one
  std::optional<RiderReach> reach;
  std::optional<RiderBody> body;
  std::optional<Real> rescuer_mass_kg;  ///< hangs on the line together with the heaviest rider
  Place place{};
};

struct Approach {
  Real start_m;                   ///< chainage of the push-off
  Given<Range> push_off_m_per_s;  ///< speed there
  Place place{};
};

/// A landing before it has a level. Chainages.
struct UnplacedLanding {
  Real platform_from_m, platform_to_m;                 ///< of its upstream and downstream edge
  std::optional<Real> earliest_rest_m, latest_rest_m;  ///< pick-up window
  Place place{};
};

struct Landing : UnplacedLanding {
  Real platform_level_m;  ///< z
};

}  // namespace fairlead

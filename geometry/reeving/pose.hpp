// One pose: the trolley's wheel on the main line, the braking line on the trolley, the unit's tension on its extension,
// all in balance with each other.
#pragma once

#include <optional>

#include "geometry/reeving/reeved.hpp"
#include "geometry/reeving/wheel.hpp"

namespace fairlead::reeving {

/// How the unit's tension is set in one sweep.
struct Outlet {
  double rest_length_m{};                  ///< of the line at rest on the sweep's reference cable
  std::optional<double> held_tension_N{};  ///< absent: the retraction at the pose's extension
};

/// A solved pose with what its neighbours start from and what the bounds between poses need.
struct Station {
  Pose pose;
  Reeved line;
  mainline::Shape shape;
  double carried_N{};             ///< by the trolley's wheel
  double carried_per_m{};         ///< its change along the travel, at travel >= 0
  double slope{};                 ///< dz/dx of the wheel's path with the line's pull, at travel >= 0
  double retraction_slope{};      ///< dT/dE, N/m, toward greater extension; 0 where the tension is held
  std::vector<double> fleet_rad;  ///< per sheave, the greater size of both sides
};

/// Solves one pose: equilibrium to 1e-11 of the weights, extension to 1e-10 m. The result does not depend on `near`
/// beyond these. Unsolved where the line cannot hang, or lifts the trolley off the main line.
Solved<Station> solve_pose(const Inputs&, const SweepInputs&, const Outlet&, double travel_m,
                           const Station* near = nullptr);

/// Length of the line from outlet to attachment with the empty trolley at its rest mark and the unit's rest extension.
Solved<double> rest_length(const Inputs&, const State&, double trolley_weight_N);

/// Slope of a table toward greater x; beyond its ends that of the end segment.
double slope_after(const Curve&, double x);

}  // namespace fairlead::reeving

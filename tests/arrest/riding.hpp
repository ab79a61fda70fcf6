// Riders, trolleys, units and straight tracks that the tests of this folder share.
#pragma once

#include <numbers>

#include "geometry/arrest/motion.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::arrest {

inline constexpr double degree = std::numbers::pi / 180, g = standard_gravity;

/// With two trolleys of 2.5 and 4 kg and the centre of mass 1.3 m under the wheel.
inline Bodies riding(double rider_kg) {
  return {.rider_kg = rider_kg, .rider_trolley_kg = 2.5, .brake_trolley_kg = 4, .hanging_m = 1.3};
}

inline double weight_N(const Bodies& b) { return (b.rider_kg + b.rider_trolley_kg + b.brake_trolley_kg) * g; }

/// 1:1 and level.
inline Track level(double travel_m, double weight_N) {
  return *Track::plain({.ratio = 1, .travel_m = travel_m, .weight_N = weight_N});
}

/// The same from the mark to the end of the data: what a test does not look for.
inline constexpr double no_limit_m = 1e6;

/// A unit whose line is drawn in by preload_N + rate_N_per_m times extension.
inline Unit unit(double preload_N, double rate_N_per_m, std::variant<reeving::EddyLaw, Curve> magnetic_N) {
  return {.law = {.retraction_N = Curve({{0, preload_N}, {1, preload_N + rate_N_per_m}}),
                  .magnetic_N = std::move(magnetic_N)},
          .extension_limit_m = no_limit_m};
}
/// One that pulls nothing.
inline Unit no_brake() { return unit(0, 0, reeving::EddyLaw{0, 1}); }
/// One that drags alike at every speed.
inline Unit steady(double force_N) { return unit(0, 0, Curve({{0, force_N}, {100, force_N}})); }

}  // namespace fairlead::arrest

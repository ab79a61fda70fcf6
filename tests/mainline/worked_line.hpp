// The worked line of the tests: 220 m, falling 14 m, hung at 15 kN; riders of 15, 80 and 150 kg all told.
#pragma once

#include "geometry/mainline/path.hpp"
#include "geometry/quantity/dimension.hpp"

namespace fairlead::mainline {

/// A line of 220 m span hung bare at H = 15 kN: 1.05 kg/m, EA 11 MN.
inline Cable line_hung_at_15_kN(double rise_m) {
  const double weight_N_per_m = 1.05 * standard_gravity, compliance_per_N = 1 / 11e6;
  const auto length_m =
      length_from_tension(220, rise_m, weight_N_per_m, compliance_per_N, 15e3, MeasuredAt::horizontal);
  return {220, rise_m, length_m.value(), weight_N_per_m, compliance_per_N};
}

inline Cable worked_line() { return line_hung_at_15_kN(-14); }

inline double weight_of(double mass_kg) { return mass_kg * standard_gravity; }

/// The wheel of one rolling mass at x.
inline Wheel wheel_at(const Cable& line, double mass_kg, double x_m) {
  const Load load{x_m, weight_of(mass_kg)};
  return hang_rolling(line, {&load, 1}).value().wheels[0];
}

/// The path of one mass from 5 m, where the worked rides start, knots every half metre.
inline Path path_of(const Cable& line, double mass_kg, double to_m = 215) {
  return Path::solve(line, weight_of(mass_kg), 5, to_m, static_cast<int>(2 * (to_m - 5)) + 1).value();
}

}  // namespace fairlead::mainline

// Rides of the tests: the worked line, its rider toward a trolley that rests, and rides drawn at random.
#pragma once

#include "geometry/arrest/approach.hpp"
#include "tests/mainline/oracle.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::arrest {

using mainline::Cable;
using mainline::Path;
using mainline::weight_of;
using mainline::worked_line;

constexpr double trolley_m = 200, trolley_kg = 4;

/// From 5 m to the brake trolley at 200 m, a knot a metre.
inline Path toward_trolley(const Cable& line, double mass_kg) {
  return Path::solve(line, weight_of(mass_kg), 5, trolley_m - mainline::meeting_m, 196,
                     mainline::Load{trolley_m, weight_of(trolley_kg)})
      .value();
}

/// Let go at `start_m`: no loss, no wind, the air of sea level.
inline ApproachInputs let_go(double mass_kg, double start_m = 5) {
  return {.start_m = start_m, .mass_kg = mass_kg, .density_kg_per_m3 = 1.225};
}

inline Approach ride(const Path& path, const ApproachInputs& in) {
  return approach(path, worked_line().weight_N_per_m, in).value();
}

/// The middle fifth of a line pulled so hard that a rider bends it by no more than his weight over the pull.
Path straight_slope(double slope_rad, double mass_kg, double length_m, double pull_N);

/// Speed of [SLOPE]'s rider. What he bends the line goes with one over its pull, so two pulls tell the speed without.
double speed_down_a_slope();

/// The same ride by another method: the kinetic energy over x, by the classical fourth-order rule in even steps. For a
/// rider who does not stand on the way, also not at the start.
struct ByEnergy {
  double speed_m_per_s{}, time_s{}, greatest_speed_m_per_s{}, greatest_over_wave{};
};
ByEnergy by_energy(const Cable&, const Path&, const ApproachInputs&, int steps);

}  // namespace fairlead::arrest

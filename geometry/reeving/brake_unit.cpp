#include "geometry/reeving/brake_unit.hpp"

#include <algorithm>

namespace fairlead::reeving {

double BrakeUnit::magnetic(double speed_m_per_s) const {
  if (const auto* law = std::get_if<EddyLaw>(&magnetic_N)) {
    // 2 F v vc / (v^2 + vc^2): the printed form has v = 0 in a denominator.
    const double v = speed_m_per_s, vc = law->critical_speed_m_per_s;
    return 2 * law->peak_N * v * vc / (v * v + vc * vc);
  }
  // Drag needs motion: a table whose first point is not at rest is not continued to it.
  return speed_m_per_s == 0 ? 0 : std::get<Curve>(magnetic_N)(speed_m_per_s);
}

double BrakeUnit::greatest_magnetic(double speed_m_per_s) const {
  const auto* law = std::get_if<EddyLaw>(&magnetic_N);
  const double nominal = law ? magnetic(std::min(speed_m_per_s, law->critical_speed_m_per_s))
                             : std::get<Curve>(magnetic_N).greatest(0, speed_m_per_s);
  return (1 + tolerance) * nominal;
}

}  // namespace fairlead::reeving

#include "geometry/reeving/brake_unit.hpp"

#include <algorithm>

namespace fairlead::reeving {

double BrakeUnit::greatest_magnetic(double speed_m_per_s) const {
  const auto* law = std::get_if<EddyLaw>(&magnetic_N);
  const double nominal = law ? magnetic(std::min(speed_m_per_s, law->critical_speed_m_per_s))
                             : std::get<Curve>(magnetic_N).greatest(0, speed_m_per_s);
  return (1 + tolerance) * nominal;
}

}  // namespace fairlead::reeving

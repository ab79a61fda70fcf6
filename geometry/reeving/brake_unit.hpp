// What the brake unit does to its line: spring-like retraction and magnetic drag.
#pragma once

#include <variant>

#include "geometry/quantity/curve.hpp"

namespace fairlead::reeving {

/// Drag that peaks at the critical speed: F = 2 peak / (v/vc + vc/v) (Wouterse, IEE Proc. B 138(4), 1991).
struct EddyLaw {
  double peak_N{};
  double critical_speed_m_per_s{};
  bool operator==(const EddyLaw&) const = default;
};

struct BrakeUnit {
  Curve retraction_N;                       ///< over extension, m
  std::variant<EddyLaw, Curve> magnetic_N;  ///< over line speed, m/s
  double tolerance{};                       ///< of the magnetic tension, a ratio >= 0
  bool operator==(const BrakeUnit&) const = default;

  double magnetic(double speed_m_per_s) const;  ///< nominal, N; 0 at rest
  /// Greatest magnetic tension over 0..speed, with the tolerance on top. An eddy law peaks at its critical
  /// speed, not at the greatest speed.
  double greatest_magnetic(double speed_m_per_s) const;
};

}  // namespace fairlead::reeving

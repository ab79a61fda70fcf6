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

  /// Nominal, N, and per m/s; 0 at rest.
  Tangent magnetic_at(double speed_m_per_s) const {
    if (const auto* law = std::get_if<EddyLaw>(&magnetic_N)) {
      // 2 F v vc / (v^2 + vc^2): the printed form has v = 0 in a denominator.
      const double v = speed_m_per_s, vc = law->critical_speed_m_per_s, both = 1 / (v * v + vc * vc);
      const double drag = 2 * law->peak_N * vc * both;
      return {drag * v, drag * (vc * vc - v * v) * both};
    }
    // Drag needs motion: a table whose first point is not at rest is not continued to it.
    return speed_m_per_s == 0 ? Tangent{} : std::get<Curve>(magnetic_N).at(speed_m_per_s);
  }
  double magnetic(double speed_m_per_s) const { return magnetic_at(speed_m_per_s).y; }
  /// Greatest magnetic tension over 0..speed, with the tolerance on top. An eddy law peaks at its critical
  /// speed, not at the greatest speed.
  double greatest_magnetic(double speed_m_per_s) const;
};

}  // namespace fairlead::reeving

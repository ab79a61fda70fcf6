// What kind of number a number is. Inside the program every number is SI; units belong to text.
#pragma once

namespace fairlead {

/// `rating` is a force that marks on gear may also state as a mass ("2 t", "2700 lb").
enum class Dimension {
  none,
  ratio,
  length,
  area,
  angle,
  mass,
  force,
  rating,
  moment,
  speed,
  acceleration,
  time,
  temperature,
  density,
  mass_per_length,
  force_per_length,
  per_temperature,
  probability
};

/// A number with its dimension, in SI: m, m2, rad, kg, N, N m, m/s, m/s2, s, K, kg/m3, kg/m, N/m, 1/K.
struct Quantity {
  double si{};
  Dimension dimension = Dimension::none;
  bool operator==(const Quantity&) const = default;
};

/// Standard gravity, m/s2 (ISO 80000-3).
inline constexpr double standard_gravity = 9.80665;

}  // namespace fairlead

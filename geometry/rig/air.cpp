#include "geometry/rig/air.hpp"

#include <cmath>

#include "geometry/quantity/dimension.hpp"

namespace fairlead {

double standard_pressure_Pa(double height_m) {
  constexpr double sea_level_Pa = 101325, sea_level_K = 288.15, lapse_K_per_m = 6.5e-3, gas_J_per_kg_K = 287.05287;
  return sea_level_Pa *
         std::pow(1 - lapse_K_per_m * height_m / sea_level_K, standard_gravity / (gas_J_per_kg_K * lapse_K_per_m));
}

double air_density_kg_per_m3(double height_m, double temperature_K) {
  constexpr double gas_J_per_kg_K = 287.05287;
  return standard_pressure_Pa(height_m) / (gas_J_per_kg_K * temperature_K);
}

double wind_on_line_Pa(double density_kg_per_m3, double speed_m_per_s) {
  constexpr double cylinder = 1.2;
  return 0.5 * density_kg_per_m3 * speed_m_per_s * speed_m_per_s * cylinder;
}

SidePush side_push(double height_m, double temperature_K, double speed_m_per_s, double drag_area_m2) {
  const double density = air_density_kg_per_m3(height_m, temperature_K);
  return {wind_on_line_Pa(density, speed_m_per_s), 0.5 * density * speed_m_per_s * speed_m_per_s * drag_area_m2};
}

}  // namespace fairlead

// The air at the site, and its push on a line.
#pragma once

namespace fairlead {

/// Pressure of the standard atmosphere (ISO 2533, troposphere) at a geopotential height, Pa.
double standard_pressure_Pa(double height_m);

/// Density of dry air, kg/m3; standard_pressure over the gas constant 287.05287 J/(kg K) of ISO 2533 and temperature.
double air_density_kg_per_m3(double height_m, double temperature_K);

/// Drag per metre of a line across the wind over its diameter, Pa: half the density times speed squared times the
/// drag coefficient of a long round cylinder below its critical speed, 1.2 (common practice, no source).
double wind_on_line_Pa(double density_kg_per_m3, double speed_m_per_s);

/// What a wind across does: to a line, as wind_on_line_Pa, and to a rider of a drag area, half the density times speed
/// squared times it.
struct SidePush {
  double line_Pa{}, rider_N{};
};
SidePush side_push(double height_m, double temperature_K, double speed_m_per_s, double drag_area_m2);

}  // namespace fairlead

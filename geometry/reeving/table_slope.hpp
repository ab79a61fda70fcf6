// Slopes of a table of values, at a place and over a band: the brake unit's retraction.
#pragma once

#include "geometry/quantity/curve.hpp"
#include "geometry/reeving/band.hpp"

namespace fairlead::reeving {

/// Slope of a table toward greater x; beyond its ends that of the end segment.
double slope_after(const Curve&, double x);

/// Values and slopes of a table over a band, its end segments continued.
struct TableBand {
  Band value, slope;
};
TableBand table_between(const Curve&, Band x);

}  // namespace fairlead::reeving

// What a hanging leg does to its two ends, from its record alone.
#pragma once

#include "geometry/reeving/sweep.hpp"

namespace fairlead::loads {

/// Forces of a leg on what holds its ends, and its load with the place where it acts.
struct LegForces {
  Vec3 on_from_N, on_to_N;
  Vec3 load_N;  ///< weight and wind together
  Point3 load_at;
};

/// By the catenary in the plane of chord and load (leg.hpp of the reeving), from the mean of the end tensions, H and
/// the length: no difference of nearly equal numbers but H against the same H from the length, good to rounding of H.
LegForces forces_of(const reeving::Leg&);

}  // namespace fairlead::loads

#include "geometry/loads/leg_forces.hpp"

namespace fairlead::loads {

LegForces forces_of(const reeving::Leg& leg) {
  const Vec3 chord = leg.to - leg.from, q = leg.load_N_per_m;
  const double per_m = std::sqrt(dot(q, q));
  const double mean_N = (leg.from_tension_N + leg.to_tension_N) / 2, by_length_N_per_m = mean_N / leg.length_m;
  LegForces forces;
  if (!(per_m > 0)) {
    forces.on_from_N = by_length_N_per_m * chord;
    forces.on_to_N = -forces.on_from_N;
    forces.load_at = leg.from + 0.5 * chord;
    return forces;
  }
  // Square to the load the tension is H; along it the ends differ by the load.
  const Vec3 up = (-1 / per_m) * q;
  const double rise_m = dot(chord, up);
  const Vec3 plan = chord - rise_m * up;
  const double d = std::sqrt(dot(plan, plan));
  const Vec3 shared = (d > 0 ? leg.H_N / d : 0) * plan + by_length_N_per_m * rise_m * up;
  forces.load_N = leg.length_m * q;
  forces.on_from_N = shared + 0.5 * forces.load_N;
  forces.on_to_N = 0.5 * forces.load_N - shared;
  // The load passes where the end tangents meet: off the middle of the chord by what closes the moments.
  const double beyond_middle_m = d > 0 ? rise_m * (by_length_N_per_m * d - leg.H_N) / (per_m * leg.length_m) : 0;
  forces.load_at = leg.from + 0.5 * chord + (d > 0 ? beyond_middle_m / d : 0) * plan;
  return forces;
}

}  // namespace fairlead::loads

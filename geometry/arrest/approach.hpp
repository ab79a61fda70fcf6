// From the push-off to the brake trolley: a rider rolls down the main line's path.
#pragma once

#include <limits>
#include <optional>

#include "geometry/mainline/path.hpp"

namespace fairlead::arrest {

struct ApproachInputs {
  double start_m{};              ///< of the push-off, on the path
  double start_speed_m_per_s{};  ///< along the path; 0: let go
  double mass_kg{};              ///< rider and rider trolley, the path's weight
  double rolling{};              ///< resistance over normal force
  double drag_area_m2{};         ///< drag coefficient times area
  double density_kg_per_m3{};    ///< of the air
  double wind_m_per_s{};         ///< level, along the line, toward the landing positive
};

/// What nobody knows is NaN: the arrival's values of a rider who does not arrive.
struct Approach {
  static constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
  double arrival_speed_m_per_s = unknown;  ///< along the path, where it ends: at the brake trolley
  /// Of his x there, still rolling; steady lean follows from it.
  double acceleration_m_per_s2 = unknown;
  double time_s{};                  ///< to the arrival, or to where he stalls
  double greatest_speed_m_per_s{};  ///< along the path, to 1e-5 of itself
  double speed_over_wave{};         ///< greatest v/c on the way, c = sqrt(H/mass per unstretched metre of the line)
  /// From the start to the arrival or the first standstill: work of weight and main line, and what rolling resistance
  /// and drag take of it (a tail wind gives: below 0).
  double worked_J{}, resisted_J{};
  double energy_residual{};  ///< start's energy, less losses, less the end's, over the greatest kinetic energy
  std::optional<double> stalled_at_m;  ///< first standstill, short of the path's end
  /// Then: where he comes to rest after rolling back and forth. None where nothing brings him to rest, and where he
  /// comes back to the start first.
  std::optional<double> hangs_at_m;
  std::optional<double> back_at_start_m_per_s;  ///< speed at which he rolls back over the start, upstream
};

/// v/c above which the model does not hold: it leaves out the line's own inertia, (v/c)2 of the deflection.
inline constexpr double greatest_speed_over_wave = 0.3;

/// Gravity through the path's drive force, rolling resistance on what presses on the wheels, drag along the path:
/// geometry/NOTATION.md, "Arrest". The path ends where he meets the brake trolley. Unsolved when an input is not finite
/// or out of its range, the wheels lift off, the integration does not get on, he still swings after most_swings, or
/// energy does not close to 1e-6.
inline constexpr int most_swings = 400;
Solved<Approach> approach(const mainline::Path&, double line_weight_N_per_m, const ApproachInputs&);

}  // namespace fairlead::arrest

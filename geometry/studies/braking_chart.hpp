// Stopping travel over arrival speed, for riders from the lightest to the heaviest.
#pragma once

#include <optional>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

struct BrakingChart {
  struct Point {
    double speed_m_per_s{};
    std::optional<arrest::Outcome> outcome;  ///< none: not solved
    double stop_travel_m{};                  ///< as far as the trolley came, whatever the outcome

    bool stops() const { return outcome == arrest::Outcome::stops; }
  };
  /// Rising speed, the slowest and the fastest arrival among them. Where the outcome changes there is a point on either
  /// side, no farther apart than speed_step_m_per_s.
  struct Curve {
    double rider_kg{};
    std::vector<Point> points;
  };
  static constexpr double speed_step_m_per_s = 0.02;

  /// The corner that governs the stopping travel: its weather, brake and main line are those of every curve.
  int corner = -1;
  std::vector<Curve> curves;  ///< rising mass
  mainline::Span speed_m_per_s;
  mainline::Span arrival_m_per_s;  ///< slowest and fastest of the corners
  // Limits as travel of the brake trolley:
  double travel_m{};
  std::optional<double> backup_m, earliest_rest_m, latest_rest_m;
};

/// Five masses over 0.6 of the slowest arrival to 1.2 of the fastest, each on a track from sweeps of its own. The lean
/// at contact is that of the extreme rider whose mass is nearer, in the same weather. Unsolved where the arrest is,
/// where no corner is solved, and where a mass between the extremes has no sweep.
/// `measured`: arrivals of tests, which the curves reach beyond too.
Solved<BrakingChart> braking_chart(const Rig&, const Work& = {}, const std::optional<mainline::Span>& measured = {});

}  // namespace fairlead

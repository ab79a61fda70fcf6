// The worst of something over all sweeps, for the checks that look at the reeving.
#pragma once

#include <functional>
#include <limits>

#include "geometry/checks/check.hpp"

namespace fairlead {

/// The worst sweep's extreme, its bound widened to all sweeps, and where it stands.
struct WorstOfSweeps {
  Extreme extreme;
  int sweep = -1;
  double travel_m{};
};
enum class Sense { greatest, least };

/// A NaN in any sweep makes the result NaN, which no verdict passes. No sweep: NaN.
template <class Get>
WorstOfSweeps worst_of_sweeps(const reeving::Reeving& reeving, Sense sense, Get get) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const double sign = sense == Sense::greatest ? 1 : -1;
  WorstOfSweeps worst{{nan, nan, -1}, -1, 0};
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s) {
    const reeving::Sweep& sweep = reeving.sweeps[s];
    const Extreme& e = std::invoke(get, sweep);
    if (!std::isfinite(e.value) || std::isnan(e.bound)) return {{nan, nan, -1}, static_cast<int>(s), 0};
    if (worst.sweep < 0 || sign * e.bound > sign * worst.extreme.bound) worst.extreme.bound = e.bound;
    if (worst.sweep >= 0 && !(sign * e.value > sign * worst.extreme.value)) continue;
    worst.extreme.value = e.value;
    worst.extreme.pose = e.pose;
    worst.sweep = static_cast<int>(s);
    worst.travel_m = e.pose >= 0 ? sweep.poses[static_cast<std::size_t>(e.pose)].travel_m : 0;
  }
  return worst;
}

/// Fills value, bound, travel, limit and verdict of a finding that may not exceed (greatest) or fall below (least)
/// its limit.
void measure(Finding&, const WorstOfSweeps&, Sense, const std::optional<Limit>&);

/// One finding about the braking line: the greatest of an extreme over all sweeps against a limit.
void judge_braking_line(const Rig&, const Check&, Extreme reeving::Sweep::*, const std::optional<Limit>&,
                        std::vector<Finding>& out);

/// "undetermined: why".
void leave_undetermined(Finding&, const Unsolved&);

}  // namespace fairlead

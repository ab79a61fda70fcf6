// The worst of something over all sweeps, for the checks that look at the reeving.
#pragma once

#include <functional>
#include <span>

#include "geometry/checks/check.hpp"

namespace fairlead {

/// The worst sweep's extreme, its bound widened to all sweeps, and where it stands.
struct WorstOfSweeps {
  Extreme extreme;
  int sweep = -1;
  double travel_m{};
};
enum class Sense { greatest, least };

/// The lesser of two; one that is unknown makes the result unknown.
inline double lesser(double a, double b) { return -greater(-a, -b); }

/// One extreme of one sweep.
struct OfSweep {
  int sweep{};
  Extreme extreme;
};

/// A NaN in any of them makes the result NaN, which no verdict passes. None: NaN.
WorstOfSweeps worst_of(const reeving::Reeving&, Sense, std::span<const OfSweep>);

/// The worst of what `get` takes from each sweep, whatever the wind.
template <class Get>
WorstOfSweeps worst_of_sweeps(const reeving::Reeving& reeving, Sense sense, Get get) {
  std::vector<OfSweep> extremes;
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s)
    extremes.push_back({static_cast<int>(s), std::invoke(get, reeving.sweeps[s])});
  return worst_of(reeving, sense, extremes);
}

/// The same of the sweeps in the side wind alone, or in still air alone: how a line leads where it runs, and how a gust
/// bends it at rest, are judged apart.
template <class Get>
WorstOfSweeps worst_in(bool wind, const reeving::Reeving& reeving, Sense sense, Get get) {
  std::vector<OfSweep> extremes;
  for (std::size_t s = 0; s < reeving.sweeps.size(); ++s)
    if (reeving.sweeps[s].in_wind == wind)
      extremes.push_back({static_cast<int>(s), std::invoke(get, reeving.sweeps[s])});
  return worst_of(reeving, sense, extremes);
}

/// "heaviest rider, cold, paying out": the passage a number was found in.
std::string passage_of(const Rig&, int sweep);

/// "warm, stiffest": the state of the main line that a rest position of the reeving is in.
std::string weather_of(const Rig&, const reeving::RestPosition&);

/// "warm, line at rest": a rest position of the reeving.
std::string rest_position_of(const Rig&, const reeving::RestPosition&);

/// Fills value, bound, limit and verdict of a finding that may not exceed (greatest) or fall below (least) its limit.
void measure(Finding&, const Extreme&, Sense, const std::optional<Limit>&);
/// The same, and its travel.
void measure(Finding&, const WorstOfSweeps&, Sense, const std::optional<Limit>&);

/// One finding about the braking line: the greatest of an extreme over all sweeps against a limit.
void judge_braking_line(const Rig&, const Check&, Extreme reeving::Sweep::*, const std::optional<Limit>&,
                        std::vector<Finding>& out);

/// "undetermined: why".
void leave_undetermined(Finding&, const Unsolved&);
/// "not judged: why".
void leave_not_judged(Finding&, std::string why);

}  // namespace fairlead

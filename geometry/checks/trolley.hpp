// The pull of the line at the brake trolley, for the checks that judge it.
#pragma once

#include "geometry/checks/worst.hpp"
#include "geometry/reeving/trolley_pull.hpp"

namespace fairlead {

/// The pull where it is worst: its leg, its direction, what it lifts.
struct WorstPull {
  WorstOfSweeps worst;
  reeving::Pose pose;
  reeving::Leg leg;  ///< from the attachment to the first sheave
  double weight_N{};
};

/// One finding about the brake trolley: the greatest over all sweeps of one number of its pull against a limit, with
/// the fact {case}. Nothing where the reeving is not solved; the finding then says so.
std::optional<WorstPull> judge_trolley(const Rig&, Extreme reeving::TrolleyPull::*, const std::optional<Limit>&,
                                       Finding&);

/// Adds the facts {redirect} and {upstream}: how much further upstream, at its height, the redirect would have to stand
/// for the leg at the trolley to rise by `rise_rad` above level. Neither where that moves nothing.
void advise_upstream(const Rig&, const WorstPull&, double rise_rad, Finding&);

}  // namespace fairlead

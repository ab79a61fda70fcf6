#include "geometry/checks/trolley.hpp"

#include <limits>

#include "geometry/checks/legs.hpp"

namespace fairlead {

std::optional<WorstPull> judge_trolley(const Rig& rig, Extreme reeving::TrolleyPull::*number,
                                       const std::optional<Limit>& limit, Finding& finding) {
  finding.subject = {Item::Kind::brake_trolley, 0};
  finding.place = rig.layout.brake_trolley.attachment.place;
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) {
    leave_undetermined(finding, rig.reeving.result->error());
    return std::nullopt;
  }
  const reeving::Inputs& in = *rig.reeving.inputs;
  const auto& wheelbase_m = rig.layout.brake_trolley.wheelbase_m;
  const double base_m = wheelbase_m ? wheelbase_m->value : std::numeric_limits<double>::quiet_NaN();
  std::vector<OfSweep> extremes;
  for (std::size_t s = 0; s < reeving->sweeps.size(); ++s)
    extremes.push_back(
        {static_cast<int>(s), reeving::trolley_pull(in, in.sweeps[s], reeving->sweeps[s], base_m).*number});
  WorstPull pull{worst_of(*reeving, Sense::greatest, extremes), {}, {}, 0};
  measure(finding, pull.worst, Sense::greatest, limit);
  if (pull.worst.extreme.pose < 0) return std::nullopt;
  const reeving::SweepInputs& passage = in.sweeps[static_cast<std::size_t>(pull.worst.sweep)];
  const reeving::Sweep& sweep = reeving->sweeps[static_cast<std::size_t>(pull.worst.sweep)];
  const auto pose = static_cast<std::size_t>(pull.worst.extreme.pose);
  pull.pose = sweep.poses[pose];
  pull.leg = sweep.legs[pose * in.legs() + in.legs_before(static_cast<std::size_t>(in.pulling))];
  pull.weight_N = passage.trolley_weight_N + (pull.pose.travel_m >= 0 ? passage.rider_weight_N : 0);
  finding.at = pull.pose.attachment;
  finding.facts.push_back({"case", passage_of(rig, pull.worst.sweep)});
  return pull;
}

void advise_upstream(const Rig& rig, const WorstPull& pull, double rise_rad, Finding& finding) {
  const std::optional<int> redirect = redirect_of(rig);
  const Vec3 chord = pull.leg.to - pull.leg.from;
  const double back_m = -dot(chord, rig.frame.along),
               further_m = dot(chord, rig.frame.up) / std::tan(rise_rad) - back_m;
  if (!redirect || !(rise_rad > 0 && further_m > 0 && std::isfinite(further_m))) return;
  finding.facts.push_back({"redirect", Item{Item::Kind::sheave, *redirect}});
  finding.facts.push_back({"upstream", Quantity{further_m, Dimension::length}});
}

}  // namespace fairlead

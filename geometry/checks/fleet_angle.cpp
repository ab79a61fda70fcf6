#include <cmath>

#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// How far the sheave would have to move along its axle for the worse leg to come back to the limit.
void advise(const Rig& rig, const reeving::Reeving& reeving, const WorstOfSweeps& worst, std::size_t i,
            const std::vector<LegOf>& legs, Finding& finding) {
  const reeving::Sweep& sweep = reeving.sweeps[static_cast<std::size_t>(worst.sweep)];
  const auto pose = static_cast<std::size_t>(worst.extreme.pose);
  const reeving::Turn& turn = sweep.turns[pose * rig.reeved.size() + i];
  const bool on = std::abs(turn.on_fleet_rad) >= std::abs(turn.off_fleet_rad);
  const double fleet_rad = on ? turn.on_fleet_rad : turn.off_fleet_rad;
  const std::size_t leg = leg_onto(*rig.reeving.inputs, i) + (on ? 0 : 1);
  const double excess_m = sweep.legs[pose * legs.size() + leg].length_m *
                          (std::sin(std::abs(fleet_rad)) - std::sin(finding.limit ? finding.limit->at.value : 0.0));
  const Vec3 toward = (fleet_rad > 0 ? 1.0 : -1.0) * rig.reeving.inputs->sheaves[i].axle;
  const double left = dot(toward, rig.frame.across), up = toward.z;
  // A sheave that turns by itself has no axle to set: what it hangs from, and its weight, turn it out of its line.
  if (rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[i])].mount != Mount::fixed) {
    finding.facts.push_back({"mounted", std::string("hang it from an anchor in the plane of its legs")});
  } else {
    finding.facts.push_back({"move", Quantity{excess_m, Dimension::length}});
    finding.facts.push_back(
        {"side", std::string(std::abs(left) >= std::abs(up) ? (left > 0 ? "to the left" : "to the right")
                                                            : (up > 0 ? "up" : "down"))});
  }
  const Item beyond = on ? legs[leg].from.item : legs[leg].to.item;
  finding.facts.push_back({"leg", beyond});
  if (beyond.kind == Item::Kind::brake_trolley) finding.facts.back().value = std::string("trolley");
  finding.at = on ? turn.on : turn.off;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  const std::vector<LegOf> legs = legs_of(rig);
  for (std::size_t i = 0; i < rig.reeved.size(); ++i) {
    if (rig.reeved[i] < 0) continue;  // a wheel on a support line has no groove to run out of
    const Sheave& sheave = rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[i])];
    Finding finding{.check = &fleet_angle, .subject = {Item::Kind::sheave, rig.reeved[i]}};
    finding.place = place_of(sheave);
    if (reeving) {
      const auto worst = worst_in(false, *reeving, Sense::greatest,
                                  [i](const reeving::Sweep& s) -> const Extreme& { return s.fleet_rad[i]; });
      measure(finding, worst, Sense::greatest,
              sheave.fleet_angle ? sheave.fleet_angle : rig.layout.limits.fleet_angle_rad);
      if (worst.extreme.pose >= 0) advise(rig, *reeving, worst, i, legs, finding);
    } else {
      leave_undetermined(finding, rig.reeving.result->error());
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check fleet_angle{
    .name = "fleet-angle",
    .title = "Fleet angle at every sheave",
    .sentence = "the line on the {leg} side runs {value} off the groove's plane at travel {travel}",
    .formula = "asin |u . axle|, u along the hanging line at the contact",
    .source = "own definition",
    .remedy =
        "move {subject} at least {move} {side} (seen toward the landing), or turn its axle; {mounted}, "
        "or take a lighter one",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead

#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &lead_angle, .subject = {Item::Kind::brake_unit, 0}};
  finding.place = rig.layout.brake_unit.axis.place;
  finding.at = rig.layout.brake_unit.outlet;
  if (const reeving::Reeving* reeving = rig.reeving.solved())
    measure(finding, worst_in(false, *reeving, Sense::greatest, &reeving::Sweep::lead_rad), Sense::greatest,
            rig.layout.brake_unit.lead_angle);
  else
    leave_undetermined(finding, rig.reeving.result->error());
  out.push_back(finding);
}

}  // namespace

const Check lead_angle{
    .name = "lead-angle",
    .title = "Lead angle at the brake unit's outlet",
    .sentence = "the line leaves the outlet {value} off its axis at travel {travel}",
    .formula = "angle between the hanging line at the outlet and the outlet's axis, in still air",
    .source = "own definition",
    .remedy = "turn the brake unit until its outlet points along the line, or move the last sheave into its axis",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead

#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// One finding of one place where a blown line is led, against the one limit.
template <class Get>
void judge(const Rig& rig, Finding finding, const char* from, Get get, std::vector<Finding>& out) {
  if (const reeving::Reeving* reeving = rig.reeving.solved()) {
    const WorstOfSweeps worst = worst_in(true, *reeving, Sense::greatest, get);
    measure(finding, worst, Sense::greatest, rig.layout.limits.lead_in_wind_rad);
    finding.facts.push_back({"from", std::string(from)});
    if (worst.sweep >= 0) finding.facts.push_back({"passage", passage_of(rig, worst.sweep)});
  } else {
    leave_undetermined(finding, rig.reeving.result->error());
  }
  out.push_back(finding);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  if (!rig.layout.site.wind_across_m_per_s) return;
  for (std::size_t i = 0; i < rig.reeved.size(); ++i) {
    if (rig.reeved[i] < 0) continue;  // a wheel on a support line has no groove to be blown out of
    Finding finding{.check = &lead_in_wind, .subject = {Item::Kind::sheave, rig.reeved[i]}};
    finding.place = place_of(rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[i])]);
    const auto fleet = [i](const reeving::Sweep& s) -> const Extreme& { return s.fleet_rad[i]; };
    judge(rig, finding, "the groove's plane", fleet, out);
  }
  Finding finding{.check = &lead_in_wind, .subject = {Item::Kind::brake_unit, 0}};
  finding.place = rig.layout.brake_unit.axis.place;
  finding.at = rig.layout.brake_unit.outlet;
  judge(rig, finding, "the outlet's axis", &reeving::Sweep::lead_rad, out);
}

}  // namespace

const Check lead_in_wind{
    .name = "lead-in-wind",
    .title = "Lead of a line at rest in the side wind",
    .sentence = "the line at rest is blown {value} off {from} at travel {travel} ({passage})",
    .formula = "fleet angle at a sheave, lead angle at the outlet, of the line hanging in its weight and the side wind",
    .source = "own definition",
    .remedy =
        "close the line in less wind, set a line keeper that holds it in its groove, or shorten the leg that the wind "
        "takes",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead

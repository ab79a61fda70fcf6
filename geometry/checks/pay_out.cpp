#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"
#include "geometry/rig/drawn.hpp"

namespace fairlead {
namespace {

/// Where the first sheave that the line meets from the trolley stands along the main line.
void place_redirect(const Rig& rig, int redirect, Finding& finding, double& upstream_m) {
  const Sheave& sheave = rig.layout.sheaves[static_cast<std::size_t>(redirect)];
  const Point3 centre =
      rig.reeving.inputs ? rig.reeving.inputs->sheaves.front().centre : drawn_centre(rig.layout, sheave, rig.frame, {});
  upstream_m = rig.layout.brake_trolley.rest_m - rig.frame.chainage_m(centre);
  const double radius_m = 0.5 * sheave.pitch_diameter_m;
  finding.subject = {Item::Kind::sheave, redirect};
  finding.place = place_of(sheave);
  finding.at = centre;
  const char* where = upstream_m > radius_m     ? "upstream of"
                      : upstream_m >= -radius_m ? "straight above"
                                                : "downstream of";
  finding.facts.push_back({"where", std::string(where)});
  finding.facts.push_back({"offset", Quantity{std::abs(upstream_m), Dimension::length}});
}

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &pay_out, .subject = {Item::Kind::brake_trolley, 0}};
  finding.place = rig.layout.brake_trolley.rest_m.place;
  double upstream_m = 0;
  const std::optional<int> redirect = redirect_of(rig);
  if (redirect) place_redirect(rig, *redirect, finding, upstream_m);
  if (const reeving::Reeving* reeving = rig.reeving.solved()) {
    const auto worst = worst_of_sweeps(*reeving, Sense::least, &reeving::Sweep::least_pay_out);
    finding.value = worst.extreme.value;
    finding.bound = worst.extreme.bound;
    finding.measured = worst.sweep >= 0;
    finding.travel_m = worst.travel_m;
    finding.verdict = finding.bound > 0 && finding.value >= finding.bound ? Verdict::pass
                      : finding.value <= 0                                ? Verdict::fail
                                                                          : Verdict::undetermined;
    if (finding.verdict == Verdict::undetermined)
      finding.why = "between its poses the sweep may take in line, and halving did not decide it";
  } else if (redirect && upstream_m <= 0) {
    // A redirect there draws line in at rest whatever else the solver met; its failure must not soften the verdict.
    finding.verdict = Verdict::fail;
  } else {
    leave_undetermined(finding, rig.reeving.result->error());
  }
  out.push_back(finding);
}

}  // namespace

const Check pay_out{
    .name = "pay-out",
    .title = "Line is paid out all the way",
    .sentence =
        "{subject} stands {where} the rest mark ({offset} along); a metre of travel pays out at least {value} m "
        "(more than 0 is needed), at travel {travel}",
    .formula = "d extension / d travel > 0 at every pose",
    .source = "own definition",
    .remedy = "move the redirect {subject} upstream of and above the rest mark",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead

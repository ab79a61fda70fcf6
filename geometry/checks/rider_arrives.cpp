#include <limits>

#include "geometry/arrest/names.hpp"
#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// Where a rider who stalls short comes to rest at last.
void tell_where(const Rig& rig, const arrest::Approach& approach, Finding& finding) {
  if (approach.hangs_at_m) {
    const double chainage_m = *approach.hangs_at_m + rig.frame.chainage_of_origin_m;
    finding.facts.push_back({"hangs", Quantity{chainage_m, Dimension::length}});
  } else if (approach.back_at_start_m_per_s) {
    finding.facts.push_back({"back", Quantity{*approach.back_at_start_m_per_s, Dimension::speed}});
  }
}

/// Measured arrivals win, but only over slower ones: where riders are computed to come faster than any that was
/// measured, nobody knows yet how they are stopped. That some are computed to come slower is told.
void hold_against_measured(const Rig& rig, const arrest::Approaches& approaches, Finding& finding) {
  const auto& measured = rig.approach.inputs->measured_speed_m_per_s;
  if (!measured) return;
  double fastest = 0, slowest = std::numeric_limits<double>::infinity();
  for (const auto& approach : approaches.computed) {
    fastest = greater(fastest, approach->arrival_speed_m_per_s);
    slowest = lesser(slowest, approach->arrival_speed_m_per_s);
  }
  if (slowest < measured->low)
    finding.facts.insert(finding.facts.end(), {{"slowest", Quantity{slowest, Dimension::speed}},
                                               {"least", Quantity{measured->low, Dimension::speed}}});
  if (fastest <= measured->high) return;
  finding.verdict = Verdict::undetermined;
  finding.facts.insert(finding.facts.end(), {{"computed", Quantity{fastest, Dimension::speed}},
                                             {"measured", Quantity{measured->high, Dimension::speed}}});
}

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &rider_arrives, .subject = {Item::Kind::rider, 0}, .place = rig.layout.riders.place};
  const arrest::Approaches* approaches = rig.approach.solved();
  if (!approaches) {
    leave_undetermined(finding, rig.approach.result->error());
  } else if (!rig.layout.approach) {
    leave_not_judged(finding, "no [approach] given: riders are taken to arrive as measured");
  } else {
    finding.place = rig.layout.approach->place;
    finding.verdict = Verdict::pass;
    for (std::size_t c = 0; c < approaches->corners.size() && finding.verdict == Verdict::pass; ++c) {
      const auto& approach = approaches->computed[c];
      const std::string corner = arrest::name_of(*rig.approach.inputs, *rig.main_line.solved(), approaches->corners[c]);
      if (!approach) {
        leave_undetermined(finding, {corner + ": " + approach.error().why});
      } else if (approach->stalled_at_m) {
        finding.verdict = Verdict::fail;
        finding.facts = {
            {"corner", corner},
            {"stalls", Quantity{*approach->stalled_at_m + rig.frame.chainage_of_origin_m, Dimension::length}}};
        tell_where(rig, *approach, finding);
      }
    }
    if (finding.verdict == Verdict::pass) hold_against_measured(rig, *approaches, finding);
  }
  out.push_back(finding);
}

}  // namespace

const Check rider_arrives{
    .name = "rider-arrives",
    .title = "Every rider reaches the brake trolley",
    .sentence =
        "{corner}: stalls at chainage {stalls}; hangs at chainage {hangs} in the end; rolls back over the start "
        "at {back}; as computed from the push-off; from {slowest} on, slower than the {least} that were measured; up "
        "to {computed}, "
        "faster than the {measured} that were measured and that the arrest is judged by",
    .formula = "approach of every corner on the energy-consistent path, with rolling resistance and wind",
    .source = "own definition; equations of motion in geometry/NOTATION.md, \"Arrest\"",
    .remedy =
        "push off faster, tighten or lower the main line's end, ride in less head wind, or be ready to fetch "
        "riders from there; where riders are computed to come faster than was measured: have the arrest judged by the "
        "faster ones, start farther down the line, or correct the rolling resistance by what unmanned tests show",
    .dimension = Dimension::none,
    .run = run};

}  // namespace fairlead

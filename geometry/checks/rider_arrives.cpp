#include "geometry/arrest/names.hpp"
#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

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

/// Measured arrivals win; that riders are computed to come faster than any was measured is not kept back.
void tell_faster(const Rig& rig, const arrest::Approaches& approaches, Finding& finding) {
  const auto& measured = rig.approach.inputs->measured_speed_m_per_s;
  if (!measured) return;
  double fastest = 0;
  for (const auto& approach : approaches.computed) fastest = greater(fastest, approach->arrival_speed_m_per_s);
  if (fastest <= measured->high) return;
  finding.facts = {{"computed", Quantity{fastest, Dimension::speed}},
                   {"measured", Quantity{measured->high, Dimension::speed}}};
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
    if (finding.verdict == Verdict::pass) tell_faster(rig, *approaches, finding);
  }
  out.push_back(finding);
}

}  // namespace

const Check rider_arrives{
    .name = "rider-arrives",
    .title = "Every rider reaches the brake trolley",
    .sentence =
        "{corner}: stalls at chainage {stalls}; hangs at chainage {hangs} in the end; rolls back over the start "
        "at {back}; as computed from the push-off; up to {computed}, faster than the {measured} that were measured and "
        "that the arrest is judged by",
    .formula = "approach of every corner on the energy-consistent path, with rolling resistance and wind",
    .source = "own definition; equations of motion in geometry/NOTATION.md, \"Arrest\"",
    .remedy =
        "push off faster, tighten or lower the main line's end, ride in less head wind, or be ready to fetch "
        "riders from there",
    .dimension = Dimension::none,
    .run = run};

}  // namespace fairlead

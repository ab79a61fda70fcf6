#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &reduction, .subject = {Item::Kind::layout, 0}};
  if (rig.braking_line >= 0) {
    finding.subject = {Item::Kind::line, rig.braking_line};
    finding.place = rig.layout.lines[static_cast<std::size_t>(rig.braking_line)].id.place;
  }
  if (!rig.nominal_ratio) {
    leave_undetermined(finding, rig.reeving.result->error());
    out.push_back(finding);
    return;
  }
  finding.value = finding.bound = *rig.nominal_ratio;
  finding.measured = true;
  constexpr double rounding = 1e-9;
  const bool right_way = *rig.nominal_ratio >= 1 - rounding;
  finding.verdict = right_way ? Verdict::pass : Verdict::fail;
  finding.facts.push_back({"way", std::string(right_way ? "the brake trolley is the fast end"
                                                        : "the reduction is upside down: the brake unit's line runs "
                                                          "faster than the trolley")});
  if (const reeving::Reeving* reeving = rig.reeving.solved()) {
    const auto least = worst_of_sweeps(*reeving, Sense::least, &reeving::Sweep::least_pay_out);
    double most = 0;
    for (const reeving::Sweep& sweep : reeving->sweeps) most = greater(most, sweep.greatest_pay_out);
    finding.facts.push_back({"least_ratio", Quantity{1 / most, Dimension::ratio}});
    finding.facts.push_back({"greatest_ratio", Quantity{1 / least.extreme.value, Dimension::ratio}});
  }
  out.push_back(finding);
}

}  // namespace

const Check reduction{
    .name = "reduction",
    .title = "The reduction runs the right way",
    .sentence =
        "nominally {value} metres of travel to a metre of the unit's line: {way}; true ratio {least_ratio} to "
        "{greatest_ratio}",
    .formula = "tension of the braking line / tension of the line on the trolley, on parallel frictionless lines, >= 1",
    .source = "own definition",
    .remedy = "lead the trolley's line over the block's sheaves and tie the braking line to the block",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead

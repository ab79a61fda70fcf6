#include <fmt/format.h>

#include <limits>

#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// A line over a sheave on the brake trolley makes the trolley the slow end, whatever else there is.
std::optional<SheaveId> sheave_on_trolley(const Layout& layout) {
  for (const Line& line : layout.lines)
    for (const Over& over : line.route)
      if (std::holds_alternative<BrakeTrolleyEnd>(layout.sheaves[static_cast<std::size_t>(over.sheave)].on))
        return over.sheave;
  return std::nullopt;
}

Extreme greatest_pay_out(const reeving::Sweep& sweep) {
  Extreme most{-std::numeric_limits<double>::infinity(), sweep.greatest_pay_out, -1};
  for (std::size_t p = static_cast<std::size_t>(sweep.rest_pose); p < sweep.poses.size(); ++p)
    if (!(sweep.poses[p].pay_out <= most.value) && !std::isnan(most.value))
      most.value = sweep.poses[p].pay_out, most.pose = static_cast<int>(p);
  return most;
}

/// The unit's line may nowhere run as fast as the trolley.
void judge_speeds(const reeving::Reeving& reeving, Finding& finding) {
  const auto fastest = worst_of_sweeps(reeving, Sense::greatest, greatest_pay_out);
  const auto slowest = worst_of_sweeps(reeving, Sense::least, &reeving::Sweep::least_pay_out);
  const Extreme& speed = fastest.extreme;
  finding.value = speed.value;
  finding.bound = speed.bound;
  finding.measured = true;
  finding.travel_m = fastest.travel_m;
  finding.verdict = speed.value <= speed.bound && speed.bound < 1 ? Verdict::pass
                    : speed.value >= 1                            ? Verdict::fail
                                                                  : Verdict::undetermined;
  if (finding.verdict == Verdict::undetermined)
    finding.why = "between its poses the unit's line may run faster than the trolley, and halving did not decide it";
  finding.facts.push_back({"least_ratio", Quantity{1 / fastest.extreme.value, Dimension::ratio}});
  finding.facts.push_back({"greatest_ratio", Quantity{1 / slowest.extreme.value, Dimension::ratio}});
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const auto on_trolley = sheave_on_trolley(rig.layout);
  if (rig.layout.blocks.empty() && !on_trolley) return;  // 1:1: there is nothing to reverse
  Finding finding{.check = &reduction, .subject = {Item::Kind::layout, 0}};
  if (rig.braking_line >= 0) {
    finding.subject = {Item::Kind::line, rig.braking_line};
    finding.place = rig.layout.lines[static_cast<std::size_t>(rig.braking_line)].id.place;
  }
  if (rig.nominal_ratio) finding.facts.push_back({"nominal", fmt::format("{:.3g}", *rig.nominal_ratio)});
  constexpr double rounding = 1e-9;
  const bool upside_down = on_trolley || (rig.nominal_ratio && *rig.nominal_ratio < 1 - rounding);
  if (on_trolley) finding.subject = {Item::Kind::sheave, static_cast<int>(*on_trolley)};
  if (upside_down)
    finding.verdict = Verdict::fail;
  else if (!rig.reeving.solved())
    leave_undetermined(finding, rig.reeving.result->error());
  else if (*rig.nominal_ratio > 1 + rounding)
    judge_speeds(*rig.reeving.solved(), finding);
  else
    finding.verdict = Verdict::pass;  // a block between two lines that run alike
  if (finding.verdict == Verdict::fail)
    finding.facts.push_back({"fault", std::string("the reduction is upside down: the brake unit's line runs faster "
                                                  "than the trolley")});
  out.push_back(finding);
}

}  // namespace

const Check reduction{
    .name = "reduction",
    .title = "The reduction runs the right way",
    .sentence =
        "{fault}; nominally {nominal}:1; true ratio {least_ratio} to {greatest_ratio} over the travel; a metre "
        "of travel pays out at most {value} m, at travel {travel}",
    .formula =
        "n on parallel, frictionless, weightless lines >= 1, and for n > 1 d extension / d travel < 1 at every "
        "pose",
    .source = "own definition",
    .remedy = "lead the trolley's line over the block's sheaves and tie the braking line to the block",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead

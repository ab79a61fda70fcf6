#include <limits>

#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

/// Half the block's size along, where it is known: its body runs ahead of its point.
double half_length_m(const Layout& layout, reeving::Body body) {
  if (body < 0) return 0;
  const auto& size = layout.blocks[static_cast<std::size_t>(body)].size_m;
  return size ? 0.5 * size->value.along_m : 0;
}

/// What the ends of a leg take of it: an eye with its splice and connector, or a block's body.
double taken_m(const Layout& layout, const LegSide& side) {
  return std::max(side.termination_m, half_length_m(layout, side.body));
}

/// Least of a leg's length over one sweep, less what its ends take; between two poses it is shorter than both by what
/// its two ends stray from straight interpolation, a chord's length being convex in its ends.
Extreme least_run(const reeving::Inputs& in, const reeving::Sweep& sweep, std::size_t leg, double taken) {
  const std::size_t legs = in.legs();
  constexpr double most = std::numeric_limits<double>::infinity();
  Extreme least{most, most, -1};
  const auto chord_m = [&](std::size_t p) {
    const reeving::Leg& l = sweep.legs[p * legs + leg];
    return norm(l.to - l.from) - taken;
  };
  for (std::size_t p = 0; p < sweep.poses.size(); ++p) {
    const double run_m = chord_m(p);
    if (!(run_m >= least.value)) least.value = run_m, least.pose = static_cast<int>(p);
    double bound_m = run_m;
    if (p + 1 < sweep.poses.size()) {
      // The interpolated chord is no shorter than its nearest approach; the ends' own motion bounds that.
      const reeving::Leg &a = sweep.legs[p * legs + leg], &b = sweep.legs[(p + 1) * legs + leg];
      const double moved_m = norm((b.to - b.from) - (a.to - a.from));
      bound_m = std::min(bound_m, (run_m + chord_m(p + 1) - moved_m) / 2 - 2 * sweep.strays[p].legs_m[leg]);
    }
    if (!(bound_m >= least.bound)) least.bound = bound_m;
  }
  return least;
}

/// Legs that something travels along: to or from a block, or with an eye that may reach a sheave.
bool concerns(const LegOf& leg) {
  return leg.from.body >= 0 || leg.to.body >= 0 || leg.from.body == reeving::on_trolley || leg.from.termination_m > 0 ||
         leg.to.termination_m > 0;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  const reeving::Reeving* reeving = rig.reeving.solved();
  if (!reeving) {
    Finding finding{.check = &block_run, .subject = {Item::Kind::layout, 0}};
    leave_undetermined(finding, rig.reeving.result->error());
    out.push_back(finding);
    return;
  }
  const reeving::Inputs& in = *rig.reeving.inputs;
  const std::vector<LegOf> legs = legs_of(rig);
  for (std::size_t i = 0; i < legs.size(); ++i) {
    if (legs[i].line.kind == Item::Kind::support_line || !concerns(legs[i])) continue;
    const double taken = taken_m(rig.layout, legs[i].from) + taken_m(rig.layout, legs[i].to);
    const auto worst = worst_of_sweeps(*reeving, Sense::least,
                                       [&](const reeving::Sweep& sweep) { return least_run(in, sweep, i, taken); });
    Finding finding{.check = &block_run, .subject = legs[i].line};
    finding.place = rig.layout.lines[static_cast<std::size_t>(legs[i].line.index)].id.place;
    measure(finding, worst, Sense::least, rig.layout.limits.block_run_m);
    // What has run onto its sheave has failed whatever room was asked for, or not asked for.
    if (worst.extreme.value <= 0) finding.verdict = Verdict::fail;
    finding.facts.push_back({"from", legs[i].from.item});
    finding.facts.push_back({"to", legs[i].to.item});
    finding.facts.push_back({"taken", Quantity{taken, Dimension::length}});
    out.push_back(finding);
  }
}

}  // namespace

const Check block_run{
    .name = "block-run",
    .title = "Room left before a block or an eye runs onto a sheave or the unit",
    .sentence =
        "{value} of the leg from {from} to {to} is left at travel {travel}, {taken} taken off for eyes and the "
        "block's body",
    .formula = "least chord of the leg - terminations and half the block's length, over every pose, stretch included",
    .source = "own definition",
    .remedy = "let the block rest further from {to}, shorten the travel, or shorten the eyes",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

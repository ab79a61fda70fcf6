#include "geometry/checks/legs.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/sheaves.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const std::optional<Limit>& limit = rig.layout.limits.wrap_rad;
  for (const SheaveUnder& under : sheaves_under_lines(rig)) {
    Finding finding{.check = &wrap, .subject = {Item::Kind::sheave, under.index}};
    finding.place = place_of(*under.sheave);
    if (const reeving::Reeving* reeving = rig.reeving.solved()) {
      const auto worst = worst_of_sweeps(*reeving, Sense::least, [&](const reeving::Sweep& s) -> const Extreme& {
        return s.least_wrap_rad[under.reeved];
      });
      measure(finding, worst, Sense::least, limit);
      if (worst.sweep >= 0) finding.facts.push_back({"case", passage_of(rig, worst.sweep)});
    } else {
      leave_undetermined(finding, rig.reeving.result->error());
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check wrap{
    .name = "wrap",
    .title = "Least wrap on every sheave",
    .sentence = "the line wraps it by {value} at travel {travel} ({case})",
    .formula = "angle about the axle from where the line comes on to where it leaves, least over all passages",
    .source = "own definition",
    .remedy = "move {subject} so that the line turns more there, or leave it out",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead

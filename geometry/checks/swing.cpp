#include <cmath>

#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &swing, .subject = {Item::Kind::rider, 0}, .place = rig.layout.riders.place};
  judge_corners(rig, finding, Sense::greatest, rig.layout.limits.swing_rad, [](const arrest::CornerResult& corner) {
    const arrest::Peak &forward = corner.motion->swing_forward_rad, &back = corner.motion->swing_back_rad;
    return forward.value >= back.value ? forward : back;
  });
  if (const arrest::Arrest* arrest = rig.arrest.solved()) {
    for (std::size_t c = 0; c < arrest->corners.size(); ++c) {
      const auto& motion = arrest->corners[c].motion;
      if (!motion || motion->outcome != arrest::Outcome::lanyard_slack) continue;
      finding.verdict = Verdict::fail;
      finding.facts.push_back({"slack", corner_of(rig, static_cast<int>(c))});
      break;
    }
  }
  out.push_back(finding);
}

}  // namespace

const Check swing{
    .name = "swing",
    .title = "How far riders swing, and that their lanyard stays tight",
    .sentence = "{slack}: the lanyard goes slack; {value} off plumb at travel {travel} ({corner})",
    .formula = "greatest lean of the lanyard either way, of every corner; slack: its tension falls to zero",
    .source = "own definition; equations of motion in geometry/NOTATION.md, \"Arrest\"",
    .remedy = "let light riders arrive slower, take a weaker brake or a longer stop, or lighten the brake trolley",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead

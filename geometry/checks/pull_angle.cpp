#include "geometry/checks/list.hpp"
#include "geometry/checks/trolley.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &pull_angle};
  const auto& limit = rig.layout.brake_trolley.pull_angle;
  const auto pull = judge_trolley(rig, &reeving::TrolleyPull::angle_rad, limit, finding);
  // The track falls or rises little: the leg may rise off it by the limit.
  if (pull && limit) advise_upstream(rig, *pull, limit->at - pull->pose.tau_rad, finding);
  out.push_back(finding);
}

}  // namespace

const Check pull_angle{
    .name = "pull-angle",
    .title = "Pull at the brake trolley along its track",
    .sentence = "the line pulls {value} off the trolley's track at travel {travel} ({case})",
    .formula = "angle of the line's pull off the main line's direction at the wheel, upstream",
    .source = "own definition",
    .remedy = "move {redirect} at least {upstream} further upstream at its height, or lower it toward the main line",
    .dimension = Dimension::angle,
    .run = run};

}  // namespace fairlead

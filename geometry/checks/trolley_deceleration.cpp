#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &trolley_deceleration,
                  .subject = {Item::Kind::brake_trolley, 0},
                  .place = rig.layout.brake_trolley.place};
  judge_corners(rig, finding, Sense::greatest, rig.layout.limits.trolley_deceleration_m_per_s2,
                [](const arrest::CornerResult& corner) { return corner.motion->deceleration_filtered_m_per_s2; });
  out.push_back(finding);
}

}  // namespace

const Check trolley_deceleration{
    .name = "trolley-deceleration",
    .title = "How hard the trolleys are slowed",
    .sentence = "{value} low-passed at 5 Hz, at travel {travel} ({corner})",
    .formula =
        "greatest deceleration of the rider trolley after contact, low-passed (2nd-order Butterworth at 5 Hz, run "
        "both ways, continued by 0)",
    .source = "own definition",
    .remedy = "let riders arrive slower, or take a higher reduction or a weaker brake",
    .dimension = Dimension::acceleration,
    .run = run};

}  // namespace fairlead

#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_braking_line(rig, coplanarity, &reeving::Sweep::thickness_m, rig.layout.limits.plane_thickness_m, out);
}

}  // namespace

const Check coplanarity{
    .name = "coplanarity",
    .title = "The line runs in one plane",
    .sentence = "its contacts and trolley end spread {value} square to their best plane over the travel",
    .formula = "peak to valley of all contact points and attachments about their total-least-squares plane",
    .source = "own definition",
    .remedy = "bring the redirect and its axle square to the main line's vertical plane",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

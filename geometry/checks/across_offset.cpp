#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_braking_line(rig, across_offset, &reeving::Sweep::across_m, rig.layout.limits.across_offset_m, out);
}

}  // namespace

const Check across_offset{
    .name = "across-offset",
    .title = "The line stays in the main line's vertical plane",
    .sentence = "a contact or the trolley end stands {value} across from the main line",
    .formula = "greatest |across| of all contact points and attachments over the travel",
    .source = "own definition",
    .remedy = "move the sheave or the trolley's attachment across, toward the main line's vertical plane",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

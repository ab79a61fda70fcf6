#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_passings(rig, under_redirect, clearance::Thing::Kind::sheave, out);
}

}  // namespace

const Check under_redirect{
    .name = "under-redirect",
    .title = "The moment under the redirect",
    .sentence = "the rider {met} under it at travel {travel}; {part}{other} is nearest, {value} ({case})",
    .formula = "distance of the surfaces when the rider's wheel stands at its chainage",
    .source = "own definition",
    .remedy = "raise the redirect, or lower the riders on the main line",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

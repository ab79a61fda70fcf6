#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (miss_envelope(rig, under_redirect, out)) return;
  judge_passings(rig, under_redirect, ThingKind::sheave, out);
}

}  // namespace

const Check under_redirect{
    .name = "under-redirect",
    .title = "The moment under the redirect",
    .sentence =
        "the rider {met} below at travel {travel}, within {value} of {part}{other} ({case}); {meet}; they reach {into} "
        "or more into each other; the rider stays "
        "{never} all the way",
    .formula = "distance of the surfaces with the rider's wheel at the chainage of its centre",
    .source = "own definition",
    .remedy = "raise the redirect and its lines by at least {short}, or lower the riders on the main line by as much",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

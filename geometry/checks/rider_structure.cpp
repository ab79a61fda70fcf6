#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (rig.layout.structures.empty() || miss_envelope(rig, rider_structure, out)) return;
  judge_gaps(rig, rider_structure, {{ThingKind::structure}, {ThingKind::rider}}, rig.layout.limits.rider_clearance_m,
             out);
}

}  // namespace

const Check rider_structure{
    .name = "rider-structure",
    .title = "Rider clear of structures and ground",
    .sentence =
        "the rider's reach comes within {value} at travel {travel} ({case}); {meet}; they reach {into} or more into "
        "each other",
    .formula = "least distance of their surfaces from the push-off on, sag, side wind and leans included",
    .source = "own definition",
    .remedy = "move {subject} at least {short} away, or raise the main line by as much",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

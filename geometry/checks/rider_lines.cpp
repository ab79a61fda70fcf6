#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  if (miss_envelope(rig, rider_lines, out)) return;
  judge_gaps(
      rig, rider_lines,
      {{ThingKind::line, ThingKind::block, ThingKind::sheave, ThingKind::frame, ThingKind::unit}, {ThingKind::rider}},
      rig.layout.limits.rider_line_clearance_m, out);
  miss_sizes(rig, rider_lines, out);
}

}  // namespace

const Check rider_lines{
    .name = "rider-lines",
    .title = "Rider and hands clear of lines, block, redirect and its frame",
    .sentence =
        "the rider's reach comes within {value} of it at travel {travel} ({case}); {meet}; they reach {into} or more "
        "into each other",
    .formula = "least distance of their surfaces in every passage looked at, sag, wind and leans included",
    .source = "own definition",
    .remedy =
        "raise {subject} by at least {short}, lower the riders on the main line by as much, or keep it out of their "
        "reach",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

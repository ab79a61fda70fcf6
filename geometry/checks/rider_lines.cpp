#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

using Kind = clearance::Thing::Kind;

bool wanted(const clearance::Gap& gap) {
  const auto is = [&](Kind a, Kind b) {
    return (gap.a.kind == a && gap.b.kind == b) || (gap.a.kind == b && gap.b.kind == a);
  };
  const auto rider_and = [&](Kind other) { return is(Kind::rider, other); };
  return rider_and(Kind::line) || rider_and(Kind::block) || rider_and(Kind::sheave) || rider_and(Kind::frame) ||
         rider_and(Kind::unit);
}

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, rider_lines, wanted, rig.layout.limits.rider_line_clearance_m, out);
}

}  // namespace

const Check rider_lines{
    .name = "rider-lines",
    .title = "Rider and hands clear of lines, block, redirect and its frame",
    .sentence = "its {own_part}surface and {part}{other} {touch} {value} at travel {travel} ({case})",
    .formula = "least distance of their surfaces over every passage, sag, wind and both riders included",
    .source = "own definition",
    .remedy = "raise the redirect and what runs from it, or lower the riders on the main line",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

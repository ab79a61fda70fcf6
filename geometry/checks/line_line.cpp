#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, line_line, {{ThingKind::line}, {ThingKind::line}}, rig.layout.limits.line_to_line_m, out);
}

}  // namespace

const Check line_line{.name = "line-line",
                      .title = "Lines and their legs clear of each other",
                      .sentence =
                          "comes within {value} of {part}{other} at travel {travel} ({case}); {meet}; they reach "
                          "{into} or more into each other; too near as well: {also}",
                      .formula = "least distance of their surfaces in every passage looked at, sag and wind included",
                      .source = "own definition",
                      .remedy = "set the sheaves or ends at least {short} further apart, up or across",
                      .dimension = Dimension::length,
                      .run = run};

}  // namespace fairlead

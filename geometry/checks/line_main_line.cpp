#include "geometry/checks/gaps.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  judge_gaps(rig, line_main_line, {{ThingKind::line}, {ThingKind::main_line}}, rig.layout.limits.line_to_main_line_m,
             out);
}

}  // namespace

const Check line_main_line{
    .name = "line-main-line",
    .title = "Lines clear of the main line",
    .sentence =
        "comes within {value} of {part}{other} at travel {travel} ({case}); {meet}; they reach {into} or more into "
        "each other; too near as well: {also}",
    .formula = "least distance of their surfaces in every passage looked at, sag and wind included",
    .source = "own definition",
    .remedy =
        "raise what it runs over by at least {short}, attach it higher on the trolley, or give it more tension at rest",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

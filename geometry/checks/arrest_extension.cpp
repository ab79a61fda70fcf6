#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const Real& limit_m = rig.layout.brake_unit.extension_limit_m;
  Finding finding{.check = &arrest_extension, .subject = {Item::Kind::brake_unit, 0}, .place = limit_m.place};
  judge_corners(rig, finding, Sense::least, rig.layout.limits.extension_reserve_m,
                [&](const arrest::CornerResult& corner) {
                  const arrest::Peak most = corner.greatest_extension_m();
                  return arrest::Peak{.value = limit_m - most.value, .travel_m = most.travel_m};
                });
  // A line already out at its end is a failure whatever reserve was asked for, or not asked for.
  if (finding.measured && !(finding.value > 0)) finding.verdict = Verdict::fail;
  out.push_back(finding);
}

}  // namespace

const Check arrest_extension{
    .name = "arrest-extension",
    .title = "Line left in the brake unit when riders stop",
    .sentence = "{value} left at travel {travel} ({corner})",
    .formula =
        "extension limit - greatest extension of every corner, what the trolley's sinking under the rider pays "
        "out, and a later creep, included",
    .source = "own definition; equations of motion in geometry/NOTATION.md, \"Arrest\"",
    .remedy = "take a unit with more line, a higher reduction or a stronger brake",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t a = 0; a < rig.layout.anchors.size(); ++a) {
    const Anchor& anchor = rig.layout.anchors[a];
    if (!anchor.cone_axis || !anchor.cone_angle_rad) continue;
    Finding finding{.check = &load_direction, .subject = {Item::Kind::anchor, static_cast<int>(a)}};
    finding.place = anchor.cone_angle_rad->place;
    finding.at = anchor.position;
    finding.limit = Limit{*anchor.cone_angle_rad, "its cone angle"};
    if (!loads) {
      leave_undetermined(finding, rig.loads.result->error());
    } else {
      const Extreme& off = loads->anchors[a].off_axis_rad;
      finding.value = off.value;
      finding.bound = off.bound;
      finding.measured = true;
      finding.verdict = at_most(off, finding.limit);
      if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the load may turn out of the cone";
      add_case(finding, *loads, off.pose, "nothing pulls aside");
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check load_direction{.name = "load-direction",
                           .title = "An anchor is pulled only where it may be",
                           .sentence = "pulled {value} off its cone's axis ({case}); at travel {travel}",
                           .formula = "angle between the load and cone_axis <= cone_angle, of every load above 1 N",
                           .source = "own definition",
                           .remedy = "turn the anchor toward the load, or use one that may be pulled {value} aside",
                           .dimension = Dimension::angle,
                           .run = run};

}  // namespace fairlead

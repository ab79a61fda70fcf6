#include "geometry/checks/capacity.hpp"
#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const loads::Loads* loads = rig.loads.solved();
  for (std::size_t a = 0; a < rig.layout.anchors.size(); ++a) {
    const Anchor& anchor = rig.layout.anchors[a];
    if (!anchor.base) continue;
    Finding finding{.check = &base_moment, .subject = {Item::Kind::anchor, static_cast<int>(a)}};
    finding.place = anchor.base->place;
    finding.at = *anchor.base;
    if (anchor.base_moment_N_m) finding.limit = Limit{*anchor.base_moment_N_m, "its base moment"};
    if (!loads) {
      leave_undetermined(finding, rig.loads.result->error());
    } else {
      const Extreme& moment = loads->anchors[a].base_moment_N_m;
      finding.value = moment.value;
      finding.bound = moment.bound;
      finding.measured = true;
      finding.verdict = at_most(moment, finding.limit);
      if (finding.verdict == Verdict::not_judged) finding.why = "the anchor has a base and no base_moment";
      if (finding.verdict == Verdict::undetermined) finding.why = "between its poses the moment may exceed the limit";
      add_case(finding, *loads, moment.pose, "nothing bends it");
    }
    out.push_back(finding);
  }
}

}  // namespace

const Check base_moment{.name = "base-moment",
                        .title = "Moment at the base of an anchor's bracket",
                        .sentence = "{value} at its base ({case}); at travel {travel}",
                        .formula = "|(position - base) x load| <= base_moment",
                        .source = "own definition",
                        .remedy = "shorten the bracket, or use one that takes {value}",
                        .dimension = Dimension::moment,
                        .run = run};

}  // namespace fairlead

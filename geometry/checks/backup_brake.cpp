#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const BrakeTrolley& trolley = rig.layout.brake_trolley;
  Finding finding{.check = &backup_brake, .subject = {Item::Kind::backup_brake, 0}, .verdict = Verdict::fail};
  if (const auto& backup = rig.layout.backup_brake) {
    finding.place = backup->engages_m.place;
    finding.facts.push_back({"backup", backup->description.value});
    finding.value = finding.bound = backup->engages_m - (trolley.rest_m + trolley.travel_m);
    finding.measured = true;
    if (finding.value >= 0) finding.verdict = Verdict::pass;
  } else {
    finding.place = trolley.travel_m.place;
    finding.facts.push_back({"backup", std::string("none given")});
  }
  out.push_back(finding);
}

}  // namespace

const Check backup_brake{.name = "backup-brake",
                         .title = "A backup brake stands beyond the planned travel",
                         .sentence = "{backup}; it engages {value} beyond the end of the planned travel",
                         .formula = "engages - (rest + travel) >= 0",
                         .source = "own definition; that it must exist is common practice, no source",
                         .remedy = "give a [backup_brake] that engages beyond the planned travel",
                         .dimension = Dimension::length,
                         .run = run};

}  // namespace fairlead

#include "geometry/checks/list.hpp"
#include "geometry/checks/trolley.hpp"

namespace fairlead {
namespace {

/// A trolley tips at 1: nature's limit, not an author's.
Verdict tips(const Extreme& share) {
  if (share.value <= share.bound && share.bound < 1) return Verdict::pass;
  return share.value >= 1 ? Verdict::fail : Verdict::undetermined;
}

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{.check = &trolley_pitch, .subject = {Item::Kind::brake_trolley, 0}};
  const auto& wheelbase_m = rig.layout.brake_trolley.wheelbase_m;
  finding.place = rig.layout.brake_trolley.attachment.place;
  if (!wheelbase_m) {
    leave_not_judged(finding, "no brake_trolley.wheelbase given");
  } else if (const auto pull = judge_trolley(rig, &reeving::TrolleyPull::pitch_share, std::nullopt, finding)) {
    finding.place = wheelbase_m->place;
    finding.verdict = tips(pull->worst.extreme);
    finding.why = finding.verdict == Verdict::undetermined
                      ? "between its poses the trolley may tip, and halving did not decide it"
                      : "";
    finding.facts.push_back({"wheelbase", Quantity{wheelbase_m->value, Dimension::length}});
    finding.facts.push_back({"wanted", Quantity{finding.value * *wheelbase_m, Dimension::length}});
  }
  out.push_back(finding);
}

}  // namespace

const Check trolley_pitch{
    .name = "trolley-pitch",
    .title = "Pitching of the brake trolley by its line",
    .sentence =
        "the pull turns it about its wheels by {value} of what tips it (1 tips it) at travel {travel}, "
        "wheelbase {wheelbase} ({case})",
    .formula = "|(attachment x pull) . across| / (what presses on the wheels x wheelbase / 2)",
    .source = "own definition; rider and hold are taken to act at the wheels",
    .remedy = "bring the attachment nearer to the wheels' contact, or take a trolley with a wheelbase above {wanted}",
    .dimension = Dimension::ratio,
    .run = run};

}  // namespace fairlead

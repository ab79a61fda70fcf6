#include "geometry/arrest/names.hpp"
#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

using arrest::Outcome;

/// The first corner that does not come to a stop fails, or whose rider creeps on to the end afterwards, whatever
/// reserve the others keep.
void fail_where_it_does_not_stop(const Rig& rig, const arrest::Arrest& arrest, Finding& finding) {
  for (std::size_t c = 0; c < arrest.corners.size(); ++c) {
    const arrest::CornerResult& corner = arrest.corners[c];
    if (!corner.motion) continue;
    const std::string name = corner_of(rig, static_cast<int>(c));
    if (corner.motion->outcome != Outcome::stops) {
      finding.facts.push_back({"failing", name});
      finding.facts.push_back({"outcome", std::string(arrest::word_for(corner.motion->outcome))});
      finding.facts.push_back({"left", Quantity{corner.motion->end_speed_m_per_s, Dimension::speed}});
    } else if (corner.rest && corner.rest->how == arrest::FinalRest::How::runs_on) {
      finding.facts.push_back({"creeping", name});
      finding.facts.push_back({"how", std::string(arrest::word_for(corner.rest->how))});
    } else {
      continue;
    }
    finding.verdict = Verdict::fail;
    return;
  }
}

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{
      .check = &rider_stops, .subject = {Item::Kind::rider, 0}, .place = rig.layout.brake_trolley.travel_m.place};
  const BrakeTrolley& trolley = rig.layout.brake_trolley;
  const auto& backup = rig.layout.backup_brake;
  const double room_m = backup ? backup->engages_m - trolley.rest_m : trolley.travel_m;
  judge_corners(rig, finding, Sense::least, rig.layout.limits.stop_reserve_m, [&](const arrest::CornerResult& corner) {
    const double farthest_m = corner.farthest_travel_m();
    return arrest::Peak{.value = room_m - farthest_m, .travel_m = farthest_m};
  });
  finding.facts.push_back({"what", std::string(backup ? "the backup brake" : "the end of the planned travel")});
  if (const arrest::Arrest* arrest = rig.arrest.solved()) fail_where_it_does_not_stop(rig, *arrest, finding);
  out.push_back(finding);
}

}  // namespace

const Check rider_stops{
    .name = "rider-stops",
    .title = "Every rider stops before the backup brake",
    .sentence =
        "{failing}: {outcome}, {left} left; {creeping}: stops and then {how}; predicted, untested: the farthest rider "
        "comes to travel {travel}, "
        "{value} before {what} ({corner})",
    .formula =
        "backup brake's place - farthest travel of the trolley, stopping or creeping on later, over every corner of "
        "riders, weather, brake and main line",
    .source = "own definition; equations of motion in geometry/NOTATION.md, \"Arrest\"",
    .remedy = "take a lower reduction or a stronger brake, lengthen the arrest zone, or slow riders before it",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

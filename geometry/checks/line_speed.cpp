#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  const BrakeUnit& unit = rig.layout.brake_unit;
  Finding finding{.check = &line_speed, .subject = {Item::Kind::brake_unit, 0}, .place = unit.place};
  std::optional<Limit> limit;
  if (unit.line_speed_limit_m_per_s) {
    limit = Limit{*unit.line_speed_limit_m_per_s, "the brake unit's own"};
    finding.place = unit.line_speed_limit_m_per_s->place;
  }
  judge_corners(rig, finding, Sense::greatest, limit,
                [](const arrest::CornerResult& corner) { return corner.motion->line_speed_m_per_s; });
  const arrest::Arrest* arrest = rig.arrest.solved();
  if (arrest && arrest->governing.arrival_speed >= 0 && rig.nominal_ratio) {
    const auto fastest = static_cast<std::size_t>(arrest->governing.arrival_speed);
    const double nominal_m_per_s = arrest->corners[fastest].arrival_speed_m_per_s / *rig.nominal_ratio;
    finding.facts.push_back({"nominal", Quantity{nominal_m_per_s, Dimension::speed}});
  }
  out.push_back(finding);
}

}  // namespace

const Check line_speed{
    .name = "line-speed",
    .title = "The brake unit's line runs no faster than it may",
    .sentence = "{value} at travel {travel} ({corner}); nominally {nominal}",
    .formula =
        "greatest line speed of every corner, the trolley's overshoot under the swinging rider included; nominal: "
        "arrival speed over n",
    .source = "own definition; equations of motion in geometry/NOTATION.md, \"Arrest\"",
    .remedy = "take a higher reduction, or slow riders before the arrest zone",
    .dimension = Dimension::speed,
    .run = run};

}  // namespace fairlead

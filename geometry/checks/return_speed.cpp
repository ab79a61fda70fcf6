#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{
      .check = &return_speed, .subject = {Item::Kind::brake_trolley, 0}, .place = rig.layout.brake_trolley.place};
  if (const arrest::Arrest* arrest = arrest_of(rig, finding)) {
    const arrest::Reset* stuck =
        worst_reset(*arrest, [](const arrest::Reset& a, const arrest::Reset& b) { return !a.returns && b.returns; });
    const arrest::Reset* worst = worst_reset(*arrest, [](const arrest::Reset& a, const arrest::Reset& b) {
      return !(a.speed_at_mark_m_per_s <= b.speed_at_mark_m_per_s);
    });
    if (!stuck || !stuck->returns) {
      leave_undetermined(finding, {"the trolley does not come back by itself"});
    } else {
      measure(finding, Extreme{worst->speed_at_mark_m_per_s, worst->speed_at_mark_m_per_s}, Sense::greatest,
              rig.layout.limits.return_speed_m_per_s);
      finding.facts = {{"case", weather_of(rig, *worst)}, {"time", Quantity{worst->time_s, Dimension::time}}};
    }
  }
  out.push_back(finding);
}

}  // namespace

const Check return_speed{
    .name = "return-speed",
    .title = "How fast the empty trolley comes back to its mark",
    .sentence = "{value} at the mark, {time} after it is let go at full travel ({case})",
    .formula = "motion of the empty trolley from full travel to its mark, least rolling resistance",
    .source = "own definition; geometry/NOTATION.md, \"Arrest\"",
    .remedy = "pad the stop at the mark, take a unit whose drag also acts inward, or lead it back by hand",
    .dimension = Dimension::speed,
    .run = run};

}  // namespace fairlead

#include "geometry/checks/corners.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{
      .check = &reset_reserve, .subject = {Item::Kind::brake_trolley, 0}, .place = rig.layout.brake_trolley.place};
  if (const arrest::Arrest* arrest = arrest_of(rig, finding)) {
    const arrest::Reset* worst = worst_reset(*arrest, [](const arrest::Reset& a, const arrest::Reset& b) {
      return !(a.least_reserve_N >= b.least_reserve_N);
    });
    if (worst) {
      measure(finding, Extreme{worst->least_reserve_N, worst->least_reserve_N}, Sense::least,
              rig.layout.limits.reset_reserve_N);
      // One that does not come back fails, whatever was asked for.
      if (!(worst->least_reserve_N > 0)) finding.verdict = Verdict::fail;
      finding.travel_m = worst->at_travel_m;
      finding.facts = {{"case", weather_of(rig, *worst)}};
    }
  }
  out.push_back(finding);
}

}  // namespace

const Check reset_reserve{
    .name = "reset-reserve",
    .title = "The brake trolley comes back to its mark by itself",
    .sentence = "{value} more than what hinders it, at travel {travel} ({case})",
    .formula =
        "F t.u + m g sin b - crr N - static resistance > 0 along the whole empty path, F returned against the "
        "friction of the sheaves; b the slope at the wheel, falling toward the landing below 0",
    .source = "own definition; geometry/NOTATION.md, \"Arrest\"",
    .remedy = "take a lower reduction or a unit that retracts harder, or lead the trolley back by hand every time",
    .dimension = Dimension::force,
    .run = run};

}  // namespace fairlead

#include <cmath>

#include "geometry/checks/list.hpp"
#include "geometry/checks/worst.hpp"

namespace fairlead {
namespace {

void judge(const Rig& rig, const reeving::Reeving& reeving, Finding& finding) {
  const reeving::RestPosition* worst = nullptr;
  for (const reeving::RestPosition& position : reeving.rest) {
    if (!position.rest) return leave_undetermined(finding, position.rest.error());
    if (!worst || !(std::abs(position.rest->shift_m) <= std::abs(worst->rest->shift_m))) worst = &position;
  }
  if (!worst) return leave_undetermined(finding, {"no rest position is solved"});
  const double shift_m = worst->rest->shift_m;
  measure(finding, Extreme{std::abs(shift_m), std::abs(shift_m)}, Sense::greatest, rig.layout.limits.rest_shift_m);
  finding.facts = {
      {"way", shift_m < 0 ? "upstream of" : "downstream of"},
      {"extension", Quantity{rig.layout.brake_unit.rest_extension_m, Dimension::length}},
      {"case", rest_position_of(rig, *worst)},
      {"at_mark", Quantity{worst->rest->extension_m, Dimension::length}},
  };
}

void run(const Rig& rig, std::vector<Finding>& out) {
  Finding finding{
      .check = &rest_shift, .subject = {Item::Kind::brake_trolley, 0}, .place = rig.layout.brake_trolley.rest_m.place};
  if (const reeving::Reeving* reeving = rig.reeving.solved())
    judge(rig, *reeving, finding);
  else
    leave_undetermined(finding, rig.reeving.result->error());
  out.push_back(finding);
}

}  // namespace

const Check rest_shift{
    .name = "rest-shift",
    .title = "Rest place of the trolley in every weather",
    .sentence =
        "with {extension} of line out of the unit it stands {value} {way} its mark ({case}); at the mark "
        "{at_mark} is out",
    .formula =
        "greatest distance from the rest mark at which the rest extension is out, over all states of the main "
        "line and both ends of what friction holds",
    .source = "own definition",
    .remedy =
        "let a stop hold the trolley at its mark, set the mark where the line hangs between its extremes, or take "
        "a main line that moves less",
    .dimension = Dimension::length,
    .run = run};

}  // namespace fairlead

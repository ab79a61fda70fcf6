#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

/// What a layout has of its own stays without a value: nobody but the arrest looks at a concept's rig.
Layout sections_of(const Concept& idea) {
  Layout layout;
  layout.files = idea.files;
  layout.sha256 = idea.sha256;
  layout.changes = idea.changes;
  layout.project = idea.project;
  static_cast<UnplacedUnit&>(layout.brake_unit) = idea.brake_unit;
  static_cast<UnplacedTrolley&>(layout.brake_trolley) = idea.brake_trolley;
  layout.brake_trolley.travel_m = idea.zone.travel_m;
  if (idea.backup_brake) static_cast<UnplacedBackup&>(layout.backup_brake.emplace()) = *idea.backup_brake;
  layout.riders = idea.riders;
  if (idea.landing) static_cast<UnplacedLanding&>(layout.landing.emplace()) = *idea.landing;
  layout.limits = idea.limits;
  return layout;
}

template <class In, class Out>
void leave_out(Stage<In, Out>& stage, const Unsolved& why) {
  stage.inputs = tl::unexpected(why);
  stage.result = std::make_shared<const Solved<Out>>(tl::unexpected(why));
}

}  // namespace

Rig solve(const Concept& idea, const Work& work) {
  Rig rig;
  rig.layout = sections_of(idea);
  rig.idea = idea;
  rig.nominal_ratio = idea.zone.ratio;
  const Unsolved no_place{"nothing in a concept has a place"};
  leave_out(rig.main_line, no_place);
  leave_out(rig.approach, no_place);
  leave_out(rig.reeving, no_place);
  leave_out(rig.loads, no_place);
  leave_out(rig.clearance, no_place);
  rig.arrest.inputs = arrest_inputs(idea, rig.assumptions);
  if (!rig.arrest.inputs)
    leave_out(rig.arrest, rig.arrest.inputs.error());
  else
    rig.arrest.result = std::make_shared<const Solved<arrest::Arrest>>(
        arrest::solve_plain(*rig.arrest.inputs,
                            {.ratio = idea.zone.ratio,
                             .efficiency = idea.zone.efficiency,
                             .slope = idea.zone.slope,
                             .rest_extension_m = idea.brake_unit.rest_extension_m},
                            work));
  return rig;
}

}  // namespace fairlead

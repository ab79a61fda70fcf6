#include "geometry/checks/list.hpp"

namespace fairlead {

std::span<const Check* const> concept_checks() {
  static constexpr const Check* checks[] = {
      &rider_mass, &rider_stops, &arrest_extension, &line_speed,   &rider_load,   &trolley_deceleration,
      &swing,      &final_rest,  &reset_reserve,    &return_speed, &backup_brake, &backup_alone};
  return checks;
}

Judged judge(const Concept& idea, const Work& work) {
  Judged judged{solve(idea, work), {}};
  for (const Check* check : concept_checks()) check->run(judged.rig, judged.findings);
  return judged;
}

}  // namespace fairlead

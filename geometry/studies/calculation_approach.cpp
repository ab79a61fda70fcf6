#include "geometry/studies/calculation_parts.hpp"

namespace fairlead::calculating {

void add_approach(const Rig& rig, int corner, std::vector<CalculationStep>& steps) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const auto c = static_cast<std::size_t>(corner);
  const auto& approach = rig.approach.solved()->computed[c];
  if (!approach || approach->stalled_at_m) return;
  const arrest::Corner& of = rig.arrest.solved()->corners[c].corner;
  const double push_off_m_per_s = of.fastest ? in.push_off_m_per_s.high : in.push_off_m_per_s.low;
  steps.push_back(step(
      "Arrival speed by energy, from the push-off to the brake trolley",
      figure("v", in.measured_speed_m_per_s ? "arrival speed as computed; the measured one is taken" : "arrival speed",
             "", 0, 3, "m/s"),
      "sqrt({v0}^2 + 2 * ({P} - {F}) / ({m1} + {mr}))",
      {figure("v0", "speed of the push-off", "layout", push_off_m_per_s, 3, "m/s"),
       figure("P", "work of weight and main line on the path", "solver", approach->worked_J, 1, "J"),
       figure("F", "taken by rolling resistance and air", "solver", approach->resisted_J, 1, "J"),
       figure("m1", "rider trolley", "layout", in.rider_trolley_kg, 2, "kg"),
       figure("mr", "rider", "layout", in.rider_kg[of.heaviest ? 1 : 0], 1, "kg")},
      approach->arrival_speed_m_per_s, "energy balance"));
}

}  // namespace fairlead::calculating

#include "geometry/reeving/under_load.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/reeving/pose.hpp"
#include "geometry/reeving/sweep_poses.hpp"

namespace fairlead::reeving {

Solved<Sweep> solve_under_load(const Inputs& in, const Reeving& reeving, int path, Friction friction,
                               std::span<const UnderLoad> loads) {
  const auto found = std::ranges::find_if(reeving.sweeps, [&](const Sweep& s) {
    return s.path == path && !s.in_wind && (s.friction == friction || s.friction == Friction::none);
  });
  if (found == reeving.sweeps.end()) return unsolved("the reeving has no sweep of an arrest's path");
  SweepInputs carried = in.sweeps[static_cast<std::size_t>(found - reeving.sweeps.begin())];
  auto settled = rest_outlet(in, carried.reference, carried.trolley_weight_N);
  if (!settled) return tl::unexpected(settled.error());
  settled->tension_ratio = found->tension_ratio;

  Sweep sweep{
      .path = path, .running = Running::paying_out, .friction = found->friction, .tension_ratio = found->tension_ratio};
  Station at;
  for (const UnderLoad& load : loads) {
    carried.rider_weight_N = load.down_N - carried.trolley_weight_N;
    settled->held_tension_N = load.unit_tension_N;
    if (auto done = solve_pose(in, carried, *settled, load.travel_m, at); !done)
      return unsolved(fmt::format("with {:.0f} N on the trolley's wheels and {:.0f} N at the unit, at travel {:.3f} m: "
                                  "{}",
                                  load.down_N, load.unit_tension_N, load.travel_m, done.error().why),
                      done.error().residual, done.error().iterations);
    add_pose(in, at, sweep);
  }
  return sweep;
}

}  // namespace fairlead::reeving

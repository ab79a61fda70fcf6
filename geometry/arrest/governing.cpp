#include <cmath>

#include "geometry/arrest/arrest.hpp"

namespace fairlead::arrest {

Governing governing_of(const std::vector<CornerResult>& corners) {
  const auto worst = [&](auto&& of) {
    int found = -1;
    double most = -INFINITY;
    for (std::size_t i = 0; i < corners.size(); ++i) {
      if (!corners[i].motion) continue;
      const double value = of(corners[i]);
      if (value > most) most = value, found = static_cast<int>(i);
    }
    return found;
  };
  const auto of_motion = [&](auto&& of) { return worst([&](const CornerResult& c) { return of(*c.motion); }); };
  Governing g;
  g.stop_travel = of_motion([](const Motion& m) { return m.stop_travel_m; });
  g.shortest_stop = of_motion([](const Motion& m) { return -m.stop_travel_m; });
  g.farthest_travel = worst([](const CornerResult& c) { return c.farthest_travel_m(); });
  g.extension = worst([](const CornerResult& c) { return c.greatest_extension_m().value; });
  g.line_speed = of_motion([](const Motion& m) { return m.line_speed_m_per_s.value; });
  g.load_raw = of_motion([](const Motion& m) { return m.load_raw.value; });
  g.load_filtered = of_motion([](const Motion& m) { return m.load_filtered.value; });
  g.load_held = of_motion([](const Motion& m) { return m.load_held.value; });
  g.load_onset = of_motion([](const Motion& m) { return m.load_onset_per_s.value; });
  g.deceleration = of_motion([](const Motion& m) { return m.deceleration_filtered_m_per_s2.value; });
  g.swing_forward = of_motion([](const Motion& m) { return m.swing_forward_rad.value; });
  g.swing_back = of_motion([](const Motion& m) { return m.swing_back_rad.value; });
  g.unit_tension = of_motion([](const Motion& m) { return m.unit_tension_N.value; });
  g.arrival_speed = worst([](const CornerResult& c) { return c.arrival_speed_m_per_s; });
  g.earliest_rest = worst([](const CornerResult& c) { return c.rest ? -c.rest->earliest_m : -INFINITY; });
  g.latest_rest = worst([](const CornerResult& c) { return c.rest ? c.rest->latest_m : -INFINITY; });
  return g;
}

}  // namespace fairlead::arrest

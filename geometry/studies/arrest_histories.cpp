#include "geometry/studies/arrest_histories.hpp"

#include <algorithm>

#include "geometry/quantity/dimension.hpp"

namespace fairlead {
namespace {

ArrestHistory history_of(const Rig& rig, int corner, std::string_view governs) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  const bool heaviest = rig.arrest.solved()->corners[static_cast<std::size_t>(corner)].corner.heaviest;
  const double weight_N = in.rider_kg[heaviest ? 1 : 0] * standard_gravity;
  ArrestHistory history{governs, corner, {}};
  for (const arrest::Instant& at : arrest::history(in, *rig.approach.solved(), *rig.main_line.solved(),
                                                   *rig.reeving.inputs, *rig.reeving.solved(), corner))
    history.samples.push_back({.t_s = at.t_s,
                               .travel_m = at.travel_m,
                               .speed_m_per_s = at.speed_m_per_s,
                               .line_speed_m_per_s = at.line_speed_m_per_s,
                               .unit_tension_N = at.unit_tension_N,
                               .lean_rad = at.lean_rad,
                               .load_raw = at.lanyard_N / weight_N,
                               .load_filtered = at.load_filtered});
  return history;
}

/// The corner whose rider swings farthest, either way; -1 where none is solved.
int widest_swing(const arrest::Arrest& arrest) {
  const int forward = arrest.governing.swing_forward, back = arrest.governing.swing_back;
  if (forward < 0 || back < 0) return std::max(forward, back);
  const auto motion = [&](int corner) { return *arrest.corners[static_cast<std::size_t>(corner)].motion; };
  return motion(back).swing_back_rad.value > motion(forward).swing_forward_rad.value ? back : forward;
}

}  // namespace

std::vector<ArrestHistory> arrest_histories(const Rig& rig) {
  std::vector<ArrestHistory> all;
  const arrest::Arrest* arrest = rig.arrest.solved();
  // The rig stands elsewhere than the design whose arrest it holds: a history would be that of another.
  if (!arrest || rig.arrest_held) return all;
  const int stop = arrest->governing.stop_travel, swing = widest_swing(*arrest);
  if (stop >= 0) all.push_back(history_of(rig, stop, stop == swing ? "stopping travel and swing" : "stopping travel"));
  if (swing >= 0 && swing != stop) all.push_back(history_of(rig, swing, "swing"));
  return all;
}

}  // namespace fairlead

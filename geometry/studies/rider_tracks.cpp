#include "geometry/studies/rider_tracks.hpp"

#include "geometry/quantity/dimension.hpp"

namespace fairlead {

Solved<std::vector<arrest::Track>> rider_tracks(const Rig& rig, int path, const std::vector<double>& rider_kg,
                                                const Work& work) {
  const arrest::Inputs& in = *rig.arrest.inputs;
  reeving::Inputs between = *rig.reeving.inputs;
  std::vector<reeving::SweepInputs> sweeps;  // the path of each counts the riders
  for (const reeving::SweepInputs& drawn : rig.reeving.inputs->sweeps) {
    if (drawn.path != path || drawn.wind_Pa != Vec3{}) continue;
    for (std::size_t m = 0; m < rider_kg.size(); ++m) {
      sweeps.push_back(drawn);
      sweeps.back().path = static_cast<int>(m);
      sweeps.back().rider_weight_N = (rider_kg[m] + in.rider_trolley_kg) * standard_gravity;
    }
  }
  between.sweeps = std::move(sweeps);
  const auto reeving = reeving::solve(between, work);
  if (!reeving) return tl::unexpected(reeving.error());
  std::vector<arrest::Track> tracks;
  for (std::size_t m = 0; m < rider_kg.size(); ++m) {
    auto track = arrest::track_of(in, static_cast<int>(m), between, *reeving);
    if (!track) return tl::unexpected(track.error());
    tracks.push_back(std::move(*track));
  }
  return tracks;
}

}  // namespace fairlead

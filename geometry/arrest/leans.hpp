// How far a rider leans where, for what must stay clear of him.
#pragma once

#include <vector>

#include "geometry/arrest/motion.hpp"

namespace fairlead::arrest {

/// Range of leans from hanging upright, forward positive: back_rad <= 0 <= forward_rad.
struct Leans {
  double back_rad{}, forward_rad{};
};

/// Travel is told in steps of this, the first from the mark.
inline constexpr double leans_step_m = 0.25;

/// Of each step of travel that the rider's trolley is in, up to the farthest. Who swings where he stopped may roll back
/// with that swing, so it counts in every step before as well. Between the record's instants a lean may pass theirs by
/// twice what its second differences tell.
std::vector<Leans> leans_over_travel(const std::vector<Instant>& record, double stop_time_s);

/// Adds a motion's to those of others.
void take_in(std::vector<Leans>& all, const std::vector<Leans>& one);

}  // namespace fairlead::arrest

// How the corners that govern an arrest go on over time.
#pragma once

#include <string_view>
#include <vector>

#include "geometry/rig/rig.hpp"

namespace fairlead {

struct ArrestHistory {
  struct Sample {
    double t_s{}, travel_m{}, speed_m_per_s{}, line_speed_m_per_s{}, unit_tension_N{}, lean_rad{};
    double load_raw{}, load_filtered{};  ///< lanyard force over the rider's weight; low-passed at 5 Hz
  };
  std::string_view governs;  ///< "the stopping travel"
  int corner{};
  std::vector<Sample> samples;  ///< every record_step_s from contact on; empty where its motion is not solved
};

/// Of the corner that governs the stopping travel, then of the one that governs the swing where that is another. Empty
/// where the arrest is not solved.
std::vector<ArrestHistory> arrest_histories(const Rig&);

}  // namespace fairlead

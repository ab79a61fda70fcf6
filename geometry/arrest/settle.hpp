// Where a rider who has stopped stays.
#pragma once

#include "geometry/arrest/motion.hpp"

namespace fairlead::arrest {

/// Between `earliest` and `latest` resistance holds him: one place where he holds at once, else the ends of what he
/// comes to rest in, wherever in it he runs out of speed.
struct FinalRest {
  enum class How {
    holds,        ///< where he stopped
    held_back,    ///< the device holds the brake trolley, and he would not roll away from it by himself
    crept_on,     ///< toward the landing
    rolled_back,  ///< would also without the unit's retraction
    pushed_back,  ///< by the unit's retraction; without it he would stay
    runs_on       ///< he creeps on to the end of the planned travel
  } how{};
  double earliest_m{}, latest_m{};  ///< travel; 0: at the rest mark, or beyond it upstream
  double extension_m{};             ///< line out of the unit at latest_m
};

/// From a standstill at stopped_m, the swing died out.
FinalRest settle(const Track&, const Bodies&, const Unit&, double stopped_m);

}  // namespace fairlead::arrest

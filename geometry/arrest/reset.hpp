// The way back: the empty brake trolley from the end of its travel to its mark.
#pragma once

#include "geometry/arrest/arrest.hpp"

namespace fairlead::arrest {

/// What draws the trolley to its mark at every pose of an empty sweep (lines returning), less what hinders it:
/// reserve = F t.u + m g sin b - crr N - static resistance (along its track; F with friction against it). It resets
/// where that stays above 0 everywhere: a dip that it might coast through does not count.
Solved<Reset> reset(const Inputs&, const reeving::Inputs&, const reeving::Sweep& returning,
                    const mainline::Path& empty);

/// The same without the ratio at which it stops, which takes the longest to find: NaN there.
Solved<Reset> way_back(const Inputs&, const reeving::Inputs&, const reeving::Sweep& returning,
                       const mainline::Path& empty);

/// The least reserve over an ideal reduction, at even places; `empty` carries the brake trolley alone.
double least_reserve_N(const Inputs&, const Track& empty);

/// All of it over an ideal reduction n:1.
Reset reset_plain(const Inputs&, const Track& empty, double ratio, double rest_extension_m);

}  // namespace fairlead::arrest

// The rig at a standstill: where the trolley rests, how its legs hang, how far its lines are stretched.
#pragma once

#include "geometry/reeving/pose.hpp"

namespace fairlead::reeving {

/// A sweep, or with `measured` the same on its reference lines; then two that differ in nothing else are equal.
SweepInputs standing(const Inputs&, int sweep, bool measured);

/// Which way every sheave turns as the trolley leaves its mark is seen without friction; what friction (K of every
/// sheave) then does to the tensions. Unsolved where the line stands still over a sheave that rubs.
Solved<Outlet> with_friction(const Inputs&, const SweepInputs&, Outlet, const std::vector<double>& friction);

/// Of an empty sweep. The shift is solved for, to 1e-10 m of extension; to first order it is -(E - E_rest) over the
/// pay-out at the mark, E the extension there, and with c the greatest change of the pay-out per metre in between and q
/// the least pay-out that is wrong by no more than c shift^2 / 2q. Unsolved where the lines cannot hang at the mark,
/// or no trolley near it has the rest extension.
Solved<Rest> rest_of(const Inputs&, const SweepInputs&, const Outlet&);

/// Every leg's deepest pose. A leg leaves its chord farthest where it runs along it, so its greatest sag in the
/// direction of the load is also its greatest square to the chord.
std::vector<RestingLeg> resting_legs(const Inputs&, const std::vector<Sweep>&);

/// `rest`: the lines in the rest position. T L / EA over every leg and wrap, T the mean of its end tensions.
std::vector<Stretch> stretches(const Inputs&, const Reeved& rest, const std::vector<Sweep>&);

}  // namespace fairlead::reeving

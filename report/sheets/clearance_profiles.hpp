// The least gaps of a rig over the travel.
#pragma once

#include <vector>

#include "report/sheets/blocks.hpp"

namespace fairlead::sheets {

/// One plot for every two kinds of things of which the layout limits the gap, a rider's first; none where they stay
/// farther beyond the limit than profiles are resolved.
std::vector<Block> clearance_profiles(const Dossier&, const Style&);

}  // namespace fairlead::sheets

// How well the energy of the corners closes.
#pragma once

#include "geometry/arrest/arrest.hpp"

namespace fairlead::arrest {

/// Index of the solved corner with the greatest energy residual; -1 where none is solved.
int worst_closing(const std::vector<CornerResult>&);

}  // namespace fairlead::arrest

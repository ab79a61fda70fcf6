// The sheets of a rig as it was built: a set of their own, for what stands on them is no design.
#pragma once

#include "geometry/asbuilt/as_built.hpp"
#include "report/sheets/sheet.hpp"

namespace fairlead::sheets {

/// What was measured and how well, every mark with how far it is off, what it may be, the verdict and the way back,
/// what moved since, what was not measured; then the findings of the rig as it stands, and how they fared in the draws.
std::vector<drawing::Sheet> compose_as_built(const AsBuilt&, const Style&, const Office&);

}  // namespace fairlead::sheets

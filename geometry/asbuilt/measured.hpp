// A crew's measurements, each given to what of the layout it is of.
#pragma once

#include "geometry/asbuilt/as_built.hpp"

namespace fairlead {

/// The values in the order of the characteristics, which are written to `all`. Refused with all that is wrong: an item
/// or a quantity that the layout does not have, one of two that only count together, tension and sag of one cable.
/// `main_line_shot`: points were shot on it, so that its tension and sag are not measured besides.
/// Directions are still those of the points file.
tl::expected<std::vector<MeasuredValue>, PointsErrors> match(const Rig& design, const std::vector<Measurement>&,
                                                             bool main_line_shot, std::vector<Characteristic>& all);

}  // namespace fairlead

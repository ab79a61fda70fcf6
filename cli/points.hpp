// What the commands that read or write points files share.
#pragma once

#include <string>

#include "geometry/survey/points_file.hpp"

namespace fairlead::cli {

/// By --order and --unit: neither can be told from a file's numbers, so neither has a default. Throws Unusable where
/// one is missing.
PointsFormat points_format(const std::string& order, const std::string& unit);

}  // namespace fairlead::cli

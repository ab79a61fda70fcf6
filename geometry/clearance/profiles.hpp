// Least gaps over the whole passage they occur in.
#pragma once

#include "geometry/clearance/passings.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::clearance {

/// One for every two kinds of things that come nearest to each other, of the first such gap; in the order of the gaps.
std::vector<Profile> profiles_of(const std::vector<Gap>&, const Plan&, const std::vector<Run>&, const Work&);

}  // namespace fairlead::clearance

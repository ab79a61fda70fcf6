// Everything that sheets show of an arrest beside its results.
#pragma once

#include "geometry/studies/arrest_histories.hpp"
#include "geometry/studies/braking_chart.hpp"

namespace fairlead {

struct ArrestFigures {
  Solved<BrakingChart> chart = unsolved("not solved");
  std::vector<ArrestHistory> histories;
};

ArrestFigures arrest_figures(const Rig&, const Work& = {});

}  // namespace fairlead

// Everything that sheets show of an arrest beside its results.
#pragma once

#include "geometry/studies/arrest_histories.hpp"
#include "geometry/studies/braking_chart.hpp"
#include "geometry/studies/calculation.hpp"
#include "geometry/studies/reductions.hpp"

namespace fairlead {

struct ArrestFigures {
  Solved<BrakingChart> chart = unsolved("not solved");
  std::vector<ArrestHistory> histories;
  Solved<Calculation> calculation = unsolved("not solved");
  Solved<Reductions> reductions = unsolved("not solved");
};

/// `measured`: arrivals of tests that the braking chart is to show.
ArrestFigures arrest_figures(const Rig&, const Work& = {}, const std::optional<mainline::Span>& measured = {});

}  // namespace fairlead

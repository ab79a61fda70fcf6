#include "geometry/studies/arrest_figures.hpp"

namespace fairlead {

ArrestFigures arrest_figures(const Rig& rig, const Work& work, const std::optional<mainline::Span>& measured) {
  return {.chart = braking_chart(rig, work, measured),
          .histories = arrest_histories(rig),
          .calculation = calculation(rig),
          .reductions = reductions(rig, work)};
}

}  // namespace fairlead

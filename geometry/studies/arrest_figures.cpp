#include "geometry/studies/arrest_figures.hpp"

namespace fairlead {

ArrestFigures arrest_figures(const Rig& rig, const Work& work) {
  return {.chart = braking_chart(rig, work),
          .histories = arrest_histories(rig),
          .calculation = calculation(rig),
          .reductions = reductions(rig, work)};
}

}  // namespace fairlead

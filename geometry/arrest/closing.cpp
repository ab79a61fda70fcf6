#include "geometry/arrest/closing.hpp"

namespace fairlead::arrest {

int worst_closing(const std::vector<CornerResult>& corners) {
  int worst = -1;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    if (!corners[i].motion) continue;
    const auto residual = [&](int c) { return corners[static_cast<std::size_t>(c)].motion->energy_residual; };
    if (worst < 0 || corners[i].motion->energy_residual > residual(worst)) worst = static_cast<int>(i);
  }
  return worst;
}

}  // namespace fairlead::arrest

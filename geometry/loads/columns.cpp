#include "geometry/loads/columns.hpp"

#include <limits>

#include "geometry/loads/balance.hpp"

namespace fairlead::loads {

Extreme worst_over(std::span<const Vec3> force_N, std::span<const double> travel_m, const std::vector<bool>& known) {
  constexpr double infinite = std::numeric_limits<double>::infinity();
  const std::size_t poses = force_N.size();
  Extreme worst{size(force_N[0]), size(force_N[0]), 0};
  if (poses < 2) return worst;
  // Jumps of slope are known at inner poses; the outermost steps have one each.
  double before_N = worst.value, jump_before = 0;
  Vec3 slope = (1 / (travel_m[1] - travel_m[0])) * (force_N[1] - force_N[0]);
  for (std::size_t p = 1; p < poses; ++p) {
    const double now_N = size(force_N[p]), step_m = travel_m[p] - travel_m[p - 1];
    double jump_after = 0;
    if (p + 1 < poses) {
      const Vec3 next = (1 / (travel_m[p + 1] - travel_m[p])) * (force_N[p + 1] - force_N[p]);
      jump_after = size(next - slope);
      slope = next;
    }
    const double share = p > 1 && p + 1 < poses ? 0.5 : 1;
    const double stray_N = known[p - 1] && poses > 2 ? share * step_m * greater(jump_before, jump_after) : infinite;
    worst.bound = greater(worst.bound, greater(before_N, now_N) + stray_N);
    if (!(now_N <= worst.value) && !std::isnan(worst.value)) worst.value = now_N, worst.pose = static_cast<int>(p);
    before_N = now_N;
    jump_before = jump_after;
  }
  return worst;
}

}  // namespace fairlead::loads

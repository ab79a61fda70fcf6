#include <cmath>

#include "geometry/mainline/cable.hpp"
#include "geometry/mainline/piece.hpp"
#include "geometry/mainline/start.hpp"

namespace fairlead::mainline {

/// Newton's iteration on how far the far end misses its place, in the tension's downward part V at the start and the
/// length L; H follows from the tension. It begins with the weightless line.
Solved<Pulled> hang_pulled(Cable k, double T) {
  constexpr int most_iterations = 50;
  if (!(std::isfinite(T) && T > 0)) return unsolved("a line is to hang by a tension that is not positive", T);
  const double chord = std::hypot(k.span_m, k.rise_m), w = k.weight_N_per_m, c = k.compliance_per_N;
  k.unstretched_m = 2 * chord;  // no line is too short here
  if (auto bad = refuse(k)) return tl::unexpected(*bad);
  k.unstretched_m = chord / (1 + c * T);
  double V = -T * k.rise_m / chord, miss_m = chord;
  for (int i = 0; i < most_iterations; ++i) {
    const double L = k.unstretched_m, H = std::sqrt(T * T - V * V);
    const Stretch r = stretch(L, H, V, w, c);
    const double miss_x = r.x - k.span_m, miss_z = r.drop + k.rise_m, longer = c + 1 / r.Tb;
    const double x_V = r.x_V - r.x_H * V / H, z_V = r.drop_V - r.x_V * V / H, x_L = H * longer, z_L = r.Vb * longer;
    // Of the two lines that such a tension holds, the determinant is below zero on the tauter one, as on a weightless.
    const double det = x_V * z_L - x_L * z_V;
    double V_step = (x_L * miss_z - z_L * miss_x) / det, L_step = (z_V * miss_x - x_V * miss_z) / det;
    miss_m = std::abs(miss_x) + std::abs(miss_z);
    if (miss_m <= closure * L && std::abs(V_step) <= settled * T && det < 0) {
      Pulled pulled{k, {}};
      pulled.cable.unstretched_m += L_step;
      const double end = V + V_step;
      pulled.shape.pieces[0] = {pulled.cable.unstretched_m, std::sqrt(T * T - end * end), end, 0, 0};
      return pulled;
    }
    double t = 1;
    while (t > 0x1p-40 && !(std::abs(V + t * V_step) < T && L + t * L_step > 0)) t /= 2;
    V += t * V_step;
    k.unstretched_m += t * L_step;
  }
  return unsolved("the line's own weight needs more than the tension that holds it", miss_m, most_iterations);
}

}  // namespace fairlead::mainline

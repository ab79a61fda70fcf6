// The line's force on a wheel that is on no path: what runs free in x and z are made of.
#pragma once

#include <cmath>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

struct Force {
  double x_N{}, z_N{};
};

/// The line's force on a wheel anywhere: two bare lines meet there, line rolls over until their tensions are equal.
class FreeWheel {
 public:
  explicit FreeWheel(const Cable& line) : line_(line), s_m_(0) {}

  Force force(double x, double z) {
    if (s_m_ == 0) s_m_ = line_.unstretched_m * x / line_.span_m;
    double low = s_m_, high = s_m_;
    for (double step = 1e-3; excess(x, z, low) < 0; step *= 2) low -= step;
    for (double step = 1e-3; excess(x, z, high) > 0; step *= 2) high += step;
    // The excess falls with s: secant steps kept inside the bracket.
    double at_low = excess(x, z, low), at_high = excess(x, z, high);
    for (int i = 0; i < 60 && high - low > 1e-13 * line_.unstretched_m; ++i) {
      double s = low + (high - low) * at_low / (at_low - at_high);
      if (i % 3 == 2 || !(s > low && s < high)) s = (low + high) / 2;
      const double there = excess(x, z, s);
      (there > 0 ? low : high) = s;
      (there > 0 ? at_low : at_high) = there;
    }
    excess(x, z, s_m_ = (low + high) / 2);
    return force_;
  }

 private:
  /// The upstream tension less the downstream one with s of the line upstream.
  double excess(double x, double z, double s) {
    const Cable up{x, z, s, line_.weight_N_per_m, line_.compliance_per_N};
    const Cable down{line_.span_m - x, line_.rise_m - z, line_.unstretched_m - s, line_.weight_N_per_m,
                     line_.compliance_per_N};
    const SupportForces a = support_forces(up, hang(up).value()), b = support_forces(down, hang(down).value());
    force_ = {a.end_x_N + b.start_x_N, a.end_z_N + b.start_z_N};
    return std::hypot(a.end_x_N, a.end_z_N) - std::hypot(b.start_x_N, b.start_z_N);
  }

  Cable line_;
  double s_m_;
  Force force_;
};

}  // namespace fairlead::mainline

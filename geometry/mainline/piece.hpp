// What one stretch of the elastic catenary spans and how that answers its end force. Only mainline includes it.
#pragma once

#include <cmath>

namespace fairlead::mainline {

/// A stretch of unstretched length L that starts with (H, Va), in Irvine's terms: how far it reaches, how far it
/// falls, and their derivatives at fixed L (x_V is also drop_H). Every difference is written as a product, so a
/// bar-taut stretch loses no digits: Ta - Tb = w L (Va + Vb)/(Ta + Tb), and asinh(Va/H) - asinh(Vb/H) as one log1p.
struct Stretch {
  double x{}, drop{};
  double x_H{}, x_V{}, drop_V{};  ///< m/N
  double Vb{}, Ta{}, Tb{};
};

/// asinh(Va/H) - asinh(Vb/H), which is 2 atanh(wL/(Ta + Tb)), with wL = Va - Vb > 0.
inline double turn(double H, double Va, double Vb, double Ta, double Tb, double wL) {
  const double sum = Ta + Tb, u = wL / sum;
  if (u < 0.1) {  // a taut line: eight terms of the series leave 6e-18 of itself and cost a third of a logarithm
    const double q = u * u, q2 = q * q;
    const double low = (1 + q * (1 / 3.)) + q2 * (1 / 5. + q * (1 / 7.)),
                 high = (1 / 9. + q * (1 / 11.)) + q2 * (1 / 13. + q * (1 / 15.));
    return 2 * u * (low + q2 * q2 * high);
  }
  // As one logarithm. Reading the stretch from its other end keeps the sum below away from 1 - 1.
  const bool falls = Va + Vb >= 0;
  const double p = falls ? Vb : -Va, Tp = falls ? Tb : Ta;
  const double up = p >= 0 ? Tp + p : H * H / (Tp - p);  // Tp + p
  return std::log1p(wL * (1 + std::abs(Va + Vb) / sum) / up);
}

inline Stretch stretch(double L, double H, double Va, double w, double c) {
  Stretch r;
  const double wL = w * L, HH = H * H;
  r.Vb = Va - wL;
  const double aa = Va * Va, bb = r.Vb * r.Vb, ab = Va * r.Vb;
  r.Ta = std::sqrt(HH + aa);
  r.Tb = std::sqrt(HH + bb);
  const double sum = r.Ta + r.Tb, product = r.Ta * r.Tb, per_sum = 1 / sum, fall = L * (Va + r.Vb);
  const double arc = turn(H, Va, r.Vb, r.Ta, r.Tb, wL) / w;
  // (Va/Ta - Vb/Tb)/w, or L times the mean of H2/T3; "below" is 1 + (Ta Tb + Va Vb)/H2.
  const double below = ab < 0 ? 1 + (HH + aa + bb) / (product - ab) : 1 + (product + ab) / HH;
  const double level = L * sum / (below * product);
  r.x = H * (c * L + arc);
  r.drop = fall * (c / 2 + per_sum);
  r.x_H = c * L + arc - level;
  r.x_V = -H * fall * per_sum / product;
  r.drop_V = c * L + level;
  return r;
}

/// Integral of T + c T2/2 over the unstretched length of a stretch that starts with H and ends as r says, J.
inline double conjugate_energy(const Stretch& r, double L, double H, double Va, double c) {
  const double V2 = Va + r.Vb, ends = r.Ta + r.Tb;
  const double tension = L / 4 * (ends + V2 * V2 / ends) + H * (r.x - c * H * L) / 2;
  return tension + c / 2 * L * (H * H + (V2 * V2 - Va * r.Vb) / 3);
}

}  // namespace fairlead::mainline

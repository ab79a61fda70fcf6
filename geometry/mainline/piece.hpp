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

/// asinh(Va/H) - asinh(Vb/H) with wL = Va - Vb > 0.
inline double turn(double H, double Va, double Vb, double Ta, double Tb, double wL) {
  // Reading the stretch from its other end keeps the sum below away from 1 - 1.
  const bool falls = Va + Vb >= 0;
  const double p = falls ? Vb : -Va, Tp = falls ? Tb : Ta;
  const double up = p >= 0 ? Tp + p : H * H / (Tp - p);  // Tp + p
  return std::log1p(wL * (1 + std::abs(Va + Vb) / (Ta + Tb)) / up);
}

inline Stretch stretch(double L, double H, double Va, double w, double c) {
  Stretch r;
  const double wL = w * L, HH = H * H;
  r.Vb = Va - wL;
  r.Ta = std::sqrt(HH + Va * Va);
  r.Tb = std::sqrt(HH + r.Vb * r.Vb);
  const double sum = r.Ta + r.Tb, product = r.Ta * r.Tb, V2 = Va + r.Vb;
  const double arc = turn(H, Va, r.Vb, r.Ta, r.Tb, wL) / w;
  // L times the mean of H2/T3: (Va/Ta - Vb/Tb)/w.
  const double level = L * HH * sum / ((HH + product + Va * r.Vb) * product);
  r.x = H * (c * L + arc);
  r.drop = L * V2 * (c / 2 + 1 / sum);
  r.x_H = c * L + arc - level;
  r.x_V = -H * L * V2 / (sum * product);
  r.drop_V = c * L + level;
  return r;
}

}  // namespace fairlead::mainline

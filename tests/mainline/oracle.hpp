// The textbook's own formulas in long double, and draws of lines and loads: what the solver is held against.
#pragma once

#include <cmath>
#include <random>
#include <span>

#include "geometry/mainline/cable.hpp"

namespace fairlead::mainline {

/// Irvine, Cable Structures (1981), as printed: how far a stretch reaches and falls.
struct Textbook {
  Textbook(const Cable& k, const Piece& p)
      : L(p.unstretched_m), H(p.H_N), V(p.V_N), w(k.weight_N_per_m), c(k.compliance_per_N) {}
  long double reach_m() const { return H * L * c + H / w * (std::asinh(V / H) - std::asinh(V_end() / H)); }
  long double fall_m() const { return L * c * (V - w * L / 2) + (std::hypot(H, V) - std::hypot(H, V_end())) / w; }
  long double V_end() const { return V - w * L; }
  long double T_end() const { return std::hypot(H, V_end()); }
  long double T_start() const { return std::hypot(H, V); }
  long double L, H, V, w, c;
};

/// By how much a shape breaks the equations, lengths as shares of the line's, tensions and forces of the tension.
struct Breach {
  double reach{}, height{}, tension{}, load{};
  double worst() const { return std::max({reach, height, tension, load}); }
};

/// A NaN anywhere makes every share NaN: it is summed, not compared away.
inline Breach breach_of(const Cable& k, const Shape& shape, std::span<const Load> loads, bool rolling) {
  long double x = 0, z = 0, reach = 0, height = 0, tension = 0, load = 0;
  for (int i = 0; i <= shape.loads; ++i) {
    const Piece& piece = shape.pieces[i];
    const Textbook stretch(k, piece);
    reach += std::abs(piece.x_m - x);
    height += std::abs(piece.z_m - z);
    x += stretch.reach_m();
    z -= stretch.fall_m();
    if (i == shape.loads) break;
    const Textbook next(k, shape.pieces[i + 1]);
    load += std::abs(stretch.V_end() - next.V - loads[i].weight_N) / next.T_start();
    if (rolling)
      tension += std::abs(stretch.T_end() - next.T_start()) / next.T_start();
    else
      tension += std::abs(stretch.H - next.H) / next.H;
  }
  reach += std::abs(x - k.span_m);
  height += std::abs(z - k.rise_m);
  const long double S = k.unstretched_m;
  return {static_cast<double>(reach / S), static_cast<double>(height / S), static_cast<double>(tension),
          static_cast<double>(load)};
}

/// Draws that aim for trouble, the same on every machine.
class Draws {
 public:
  explicit Draws(unsigned seed) : bits_(seed) {}
  double even(double from, double to) { return from + (to - from) * static_cast<double>(bits_() >> 11) * 0x1p-53; }
  double decades(double from, double to) { return std::exp(even(std::log(from), std::log(to))); }
  bool one_in(int n) { return bits_() % static_cast<unsigned>(n) == 0; }

  /// From three chords long to bar-taut, level to steep, spans of 5 m to 2 km; one in three does not stretch.
  Cable line() {
    Cable k;
    k.span_m = decades(5, 2000);
    k.rise_m = one_in(3) ? 0 : k.span_m * even(-1.2, 1.2);
    k.weight_N_per_m = decades(0.5, 100);
    const double chord = std::hypot(k.span_m, k.rise_m), weight_N = k.weight_N_per_m * chord;
    const double slack = decades(1e-7, 2);
    k.unstretched_m = chord * (1 + slack);
    if (one_in(3)) return k;
    const double tension_N = weight_N * decades(0.05, 1e4);
    k.compliance_per_N = decades(1e-6, 0.1) / tension_N;
    if (one_in(2)) k.unstretched_m = chord * (1 + slack / 100) / (1 + k.compliance_per_N * tension_N);  // taut by pull
    return k;
  }
  /// From a ten-thousandth of the line's weight to a thousand times.
  double weight_on(const Cable& k) { return k.weight_N_per_m * k.unstretched_m * decades(1e-4, 1e3); }
  /// Anywhere on the span, half of them close to a support.
  double place_on(const Cable& k) {
    if (one_in(2)) return k.span_m * even(0.01, 0.99);
    const double near = k.span_m * decades(1e-4, 1e-1);
    return one_in(2) ? near : k.span_m - near;
  }

 private:
  std::mt19937_64 bits_;
};

}  // namespace fairlead::mainline

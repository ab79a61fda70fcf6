#include <cmath>
#include <limits>

#include "geometry/mainline/cable.hpp"
#include "geometry/mainline/piece.hpp"

namespace fairlead::mainline {
namespace {

/// asinh of the downward slope at the horizontal distance x from the piece's upstream end. With V = H sinh(u) the
/// distance is x = c H (Va - V)/w + (H/w)(ua - u): rising, bent one way on each side of u = 0, so Newton settles.
double slope_parameter(const Cable& k, const Piece& piece, double x) {
  const double stretch = k.compliance_per_N * piece.H_N;
  const double ua = std::asinh(piece.V_N / piece.H_N);
  const double target = stretch * std::sinh(ua) + ua - k.weight_N_per_m * x / piece.H_N;
  double u = ua - k.weight_N_per_m * x / (piece.H_N * (1 + stretch));
  for (int i = 0; i < 50; ++i) {
    const double step = (stretch * std::sinh(u) + u - target) / (stretch * std::cosh(u) + 1);
    u -= step;
    if (std::abs(step) <= 1e-15 * (1 + std::abs(u))) break;
  }
  return u;
}

}  // namespace

LinePoint line_at(const Cable& k, const Shape& shape, double x_m) {
  if (!(x_m >= 0 && x_m <= k.span_m)) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    return {unknown, unknown};
  }
  int i = shape.loads;
  while (i > 0 && x_m < shape.pieces[i].x_m) --i;
  const Piece& piece = shape.pieces[i];
  const double w = k.weight_N_per_m, c = k.compliance_per_N, reach_m = x_m - piece.x_m;
  const double u = slope_parameter(k, piece, reach_m);
  double s = (piece.V_N - piece.H_N * std::sinh(u)) / w;
  // On a taut line the difference above is one of nearly equal numbers: a step on the stretch itself mends it.
  const Stretch rough = stretch(s, piece.H_N, piece.V_N, w, c);
  s += (reach_m - rough.x) / (piece.H_N * (c + 1 / rough.Tb));
  const Stretch part = stretch(s, piece.H_N, piece.V_N, w, c);
  return {piece.z_m - part.drop, -part.Vb / piece.H_N};
}

SupportForces support_forces(const Cable& k, const Shape& shape) {
  const Piece &first = shape.pieces[0], &last = shape.pieces[shape.loads];
  const double V_end = last.V_N - k.weight_N_per_m * last.unstretched_m;
  return {first.H_N, -first.V_N, -last.H_N, V_end};
}

double mid_span_sag(const Cable& k, const Shape& shape) { return k.rise_m / 2 - line_at(k, shape, k.span_m / 2).z_m; }

Cable at_temperature(const Cable& k, double expansion_per_K, double delta_K) {
  const double longer = 1 + expansion_per_K * delta_K;
  Cable r = k;
  r.unstretched_m *= longer;
  r.weight_N_per_m /= longer;
  return r;
}

}  // namespace fairlead::mainline

// The potential of the main line and what rolls on it, from scratch: gravity and stretch, integrated along the line.
#pragma once

#include <boost/math/quadrature/gauss.hpp>
#include <vector>

#include "tests/mainline/oracle.hpp"

namespace fairlead::mainline {

/// Heights from the start support. What Path::potential_J is, but for its zero.
inline double energy_J(const Cable& k, const std::vector<Load>& loads) {
  const Shape shape = hang_rolling(k, loads).value();
  double sum = 0;
  for (int i = 0; i < shape.loads; ++i) sum += loads[i].weight_N * shape.wheels[i].z_m;
  for (int i = 0; i <= shape.loads; ++i) {
    const auto per_m = [&, piece = shape.pieces[i]](double s) {
      Piece part = piece;
      part.unstretched_m = s;
      const Textbook t(k, part);
      const double T = static_cast<double>(t.T_end());
      return k.compliance_per_N * T * T / 2 + k.weight_N_per_m * (piece.z_m - static_cast<double>(t.fall_m()));
    };
    sum += boost::math::quadrature::gauss<double, 30>::integrate(per_m, 0, shape.pieces[i].unstretched_m);
  }
  return sum;
}

}  // namespace fairlead::mainline

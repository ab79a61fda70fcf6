#include "geometry/quantity/curve.hpp"

#include <algorithm>

namespace fairlead {

double Curve::greatest(double from, double to) const {
  double most = std::max((*this)(from), (*this)(to));
  for (const CurvePoint& p : points_)
    if (p.x > from && p.x < to) most = std::max(most, p.y);
  return most;
}

}  // namespace fairlead

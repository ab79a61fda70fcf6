#include "geometry/quantity/curve.hpp"

#include <algorithm>
#include <limits>

namespace fairlead {

double Curve::operator()(double x) const {
  if (points_.empty()) return std::numeric_limits<double>::quiet_NaN();
  if (points_.size() == 1) return points_.front().y;
  auto right = std::upper_bound(points_.begin() + 1, points_.end() - 1, x,
                                [](double value, const CurvePoint& p) { return value < p.x; });
  const CurvePoint a = *(right - 1), b = *right;
  return a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x));
}

double Curve::greatest(double from, double to) const {
  double most = std::max((*this)(from), (*this)(to));
  for (const CurvePoint& p : points_)
    if (p.x > from && p.x < to) most = std::max(most, p.y);
  return most;
}

}  // namespace fairlead

#include "geometry/reeving/table_slope.hpp"

#include <algorithm>

namespace fairlead::reeving {

double slope_after(const Curve& curve, double x) {
  const auto& p = curve.points();
  if (p.size() < 2) return 0;
  const auto right =
      std::upper_bound(p.begin() + 1, p.end() - 1, x, [](double value, const CurvePoint& q) { return value < q.x; });
  return (right->y - (right - 1)->y) / (right->x - (right - 1)->x);
}

TableBand table_between(const Curve& curve, Band x) {
  TableBand r{band_of(curve(x.low), curve(x.high)), slope_after(curve, x.low)};
  for (const CurvePoint& p : curve.points()) {
    if (!(p.x > x.low && p.x < x.high)) continue;
    r.value = hull(r.value, p.y);
    r.slope = hull(r.slope, slope_after(curve, p.x));
  }
  return r;
}

}  // namespace fairlead::reeving

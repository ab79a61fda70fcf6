// A measured curve: a table of points joined by straight lines.
#pragma once

#include <algorithm>
#include <limits>
#include <vector>

namespace fairlead {

struct CurvePoint {
  double x{}, y{};
  bool operator==(const CurvePoint&) const = default;
};

/// A value and how it changes.
struct Tangent {
  double y{}, slope{};
};

/// A table y(x), x strictly rising, at least one point. Beyond its ends the end segments are continued;
/// `covers` says where the table itself reaches, and whoever continues it must say so.
class Curve {
 public:
  Curve() = default;
  explicit Curve(std::vector<CurvePoint> points) : points_(std::move(points)) {}
  double operator()(double x) const { return at(x).y; }
  /// With the slope of the segment; at a point of the table that to its right. NaN without a point.
  Tangent at(double x) const {
    if (points_.empty()) return {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN()};
    if (points_.size() == 1) return {points_.front().y, 0};
    const auto right = std::upper_bound(points_.begin() + 1, points_.end() - 1, x,
                                        [](double value, const CurvePoint& p) { return value < p.x; });
    const CurvePoint a = *(right - 1), b = *right;
    const double slope = (b.y - a.y) / (b.x - a.x);
    return {a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x)), slope};
  }
  /// Greatest y over [from, to], at a point of the table or an end.
  double greatest(double from, double to) const;
  bool covers(double x) const { return !points_.empty() && x >= points_.front().x && x <= points_.back().x; }
  const std::vector<CurvePoint>& points() const { return points_; }
  bool operator==(const Curve&) const = default;

 private:
  std::vector<CurvePoint> points_;
};

}  // namespace fairlead

// A measured curve: a table of points joined by straight lines.
#pragma once

#include <vector>

namespace fairlead {

struct CurvePoint {
  double x{}, y{};
  bool operator==(const CurvePoint&) const = default;
};

/// A table y(x), x strictly rising, at least one point. Beyond its ends the end segments are continued;
/// `covers` says where the table itself reaches, and whoever continues it must say so.
class Curve {
 public:
  Curve() = default;
  explicit Curve(std::vector<CurvePoint> points) : points_(std::move(points)) {}
  double operator()(double x) const;
  /// Greatest y over [from, to], at a point of the table or an end.
  double greatest(double from, double to) const;
  bool covers(double x) const { return !points_.empty() && x >= points_.front().x && x <= points_.back().x; }
  const std::vector<CurvePoint>& points() const { return points_; }
  bool operator==(const Curve&) const = default;

 private:
  std::vector<CurvePoint> points_;
};

}  // namespace fairlead

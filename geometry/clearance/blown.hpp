// Where a side wind may carry the main line and what hangs on it.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "geometry/clearance/movers.hpp"
#include "geometry/reeving/line_between.hpp"

namespace fairlead::clearance {

/// How far off its place in still air a point of the main line may be in any wind up to the passage's, from either
/// side: no farther aside than aside_m, and between that place and rise_m above it.
///
/// Aside the line is a string under its own side loads: it leaves the vertical plane by the moment of these loads, as
/// on a beam between the supports, over its horizontal tension. What hangs aside is longer, so a line in wind pulls no
/// less than in still air, and the still-air tension gives the most; where wheels make it differ along the line, the
/// greatest of it over the square of the least. A metre of span holds a metre of line times the steepest T/H. Upward
/// the line swings about its chord, at most by the angle whose tangent is the greatest side load over weight of any
/// part: the depth below the chord times one less the cosine. That tension and chord do so is exact for a flat line,
/// and for one of even load hung at any slope; of lines between, whose slopes vary, it is taken.
class Blown {
 public:
  /// `shape`: main_line_at the pose. `steepest`: no slope of the line on the steps beside the pose is greater.
  Blown(const Passage&, const reeving::Pose&, const mainline::Shape&, double steepest);
  double aside_m(double x_m) const;             ///< x_m: along from the start support
  double rise_m(double x_m, double z_m) const;  ///< z_m: of the line there, above the start support

 private:
  friend class BlownBetween;
  struct Pull {
    double x_m, side_N;
  };
  double moment_N_m(double x_m) const;

  double span_m_, rise_per_m_, line_N_per_m_{}, least_N_{}, most_N_{}, lifts_{};
  std::array<Pull, 2> pulls_{};
};

/// A quantity, not negative, on the way from one pose to the next: nowhere more than it would be if it went evenly from
/// one value to the other, and `over` more.
struct AtMost {
  double from, to, over;
  double greatest() const { return greater(from, to) + over; }
};
/// Of two even changes the product leaves its own by t(1 - t) of the product of both, and upward where they go apart.
AtMost operator*(const AtMost&, const AtMost&);

/// Blown on the way from one pose to the next. Proven, of Blown's own formulas: the wheels go evenly along, so moments
/// are quadratic along the step; what the line's horizontal tension may be off its even change is reeving's.
class BlownBetween {
 public:
  BlownBetween(const Blown& from, const Blown& to, const reeving::LineBetween&);
  /// Of a point that goes evenly along, between the same wheels all the way: how much farther aside it may be than
  /// evenly from aside_m to aside_m; infinite where nothing is proven. Its rise needs no more than what its height
  /// strays: the highest that the wind may have it is a mean of that height and the chord's.
  double over_m(double from_x_m, double to_x_m) const;
  /// Most that a chord of a metre's reach leaves the sideways curve by.
  double bulge_per_m2() const { return line_N_per_m_ * per_N_.greatest() / 8; }

 private:
  const Blown &from_, &to_;
  double line_N_per_m_;
  AtMost per_N_;  ///< aside by moment
};

/// Of a passage's poses in a row: `shapes` has the line at each, `between` on the way from each to the next.
std::vector<Blown> blown_along(const Passage&, std::span<const mainline::Shape> shapes,
                               std::span<const reeving::LineBetween> between);

}  // namespace fairlead::clearance

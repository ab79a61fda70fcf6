// Where a side wind may carry the main line and what hangs on it.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "geometry/clearance/movers.hpp"

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
  /// `shape`: main_line_at the pose.
  Blown(const Passage&, const reeving::Pose&, const mainline::Shape&);
  double aside_m(double x_m) const;             ///< x_m: along from the start support
  double rise_m(double x_m, double z_m) const;  ///< z_m: of the line there, above the start support
  /// Most that a chord of a metre's reach leaves the sideways curve by.
  double bulge_per_m2() const { return line_N_per_m_ * per_N_ / 8; }

 private:
  struct Pull {
    double x_m, side_N;
  };
  double span_m_, rise_per_m_, line_N_per_m_{}, per_N_{}, lifts_{};
  std::array<Pull, 2> pulls_{};
};

/// Of places at rising travels: how far each stretch may bend off the straight between its two ends. A parabola through
/// three neighbours leaves its chords by an eighth of the second derivative times the reach squared; the greater of
/// the two at a stretch's ends is told four times over. At travel 0, where the trolley sets off, each side has its own.
std::vector<double> bends_m(std::span<const double> travels_m, std::span<const Vec3> places);

}  // namespace fairlead::clearance

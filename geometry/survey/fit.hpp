// The rigid motion that lays measured points on known ones as well as it can, and whether they can be the same points.
//
// Of all proper rotations R and shifts t the sum of |known - (R measured + t)|^2 is least where t takes one centroid to
// the other and R is the polar factor of the cross-covariance, its last sign turned where that alone would mirror
// (UMEYAMA91). Scale is never fitted: a survey that is too long is wrong, and what it would be is told apart.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead {

/// levelled: an instrument's vertical is plumb, so the points turn about it alone. tilted: about any axis.
enum class FitKind { levelled, tilted };

/// A proper rotation about a point of the measured frame, which comes to stand at one of the known frame. Far from the
/// origin no digits are lost to it.
struct RigidMotion {
  std::array<Vec3, 3> rows{Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}};  ///< of the rotation
  Point3 from, to;

  Vec3 turned(Vec3 v) const { return {dot(rows[0], v), dot(rows[1], v), dot(rows[2], v)}; }
  Point3 moved(Point3 p) const { return to + turned(p - from); }
  Point3 back(Point3 p) const {
    const Vec3 v = p - to;
    return from + (v.x * rows[0] + v.y * rows[1] + v.z * rows[2]);
  }
};

struct FitPair {
  Point3 measured, known;
};

struct Fit {
  RigidMotion motion;
  std::vector<Vec3> residual_m;  ///< known - moved measured, known frame; in the order of the pairs
  double rms_m{};                ///< sqrt(sum |residual|^2 / pairs)
  double scale{};                ///< known over measured, were it fitted too: 0.3048 where feet were taken for metres
  double mirrored_rms_m{};       ///< as rms_m, of the best motion that mirrors in plan
};

/// Unsolved where a coordinate is not known, and where the pairs leave the motion open: levelled needs two apart in
/// plan, tilted three that do not stand in one line (either by a millionth of their spread).
Solved<Fit> best_fit(std::span<const FitPair>, FitKind);

/// Whether the residuals can come from the stated uncertainty, and whose do not.
struct FitTest {
  double chi_squared{};       ///< sum of |residual|^2 / u^2
  int redundancy{};           ///< coordinates more than the motion needs
  double probability{};       ///< of a chi-squared as great by chance
  bool agrees{};              ///< that is not below a thousandth (BAARDA68)
  bool tells_mirror{};        ///< the same points mirrored in plan would not agree: not of points in one line
  std::vector<int> outliers;  ///< of those that do not agree: each pair without which alone the others do
  std::vector<Vec3> off_m;    ///< of each outlier: known - moved measured by the fit of the others
};

/// `standard_uncertainty_m` > 0: of every coordinate of every pair, known and measured together. Two pairs can
/// disagree, but never tell which of them is off.
Solved<FitTest> test_fit(std::span<const FitPair>, FitKind, double standard_uncertainty_m);

/// Probability that a chi-squared of so many degrees of freedom (>= 0) exceeds x; 1 without a degree.
double chi_squared_tail(double x, int degrees);

}  // namespace fairlead

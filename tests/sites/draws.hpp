// Shapes meant to hurt.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <random>
#include <span>
#include <vector>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::sites {

using Triangle = std::array<Point3, 3>;

/// Numbers of the kinds that make trouble together: any, whole ones of a small grid, and those but for a little.
struct Draws {
  std::mt19937_64 random;
  double datum_m = 0;  ///< how far out all of it lies
  enum class Kind { any, grid, near_grid } kind = Kind::any;

  double any(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); }
  double coordinate() {
    if (kind == Kind::any) return any(-10, 10);
    return whole(-3, 3) + (kind == Kind::near_grid ? std::ldexp(whole(-2, 2), -whole(20, 50)) : 0);
  }
  Point3 point() { return {datum_m + coordinate(), -datum_m + coordinate(), datum_m / 100 + coordinate()}; }
  Point3 between(Point3 a, Point3 b, double t) { return a + t * (b - a); }
  /// Any, needle, flat, a point, one small beside its place.
  Triangle triangle() {
    Triangle t{point(), point(), point()};
    switch (whole(0, 7)) {
      case 0:
        t[2] = between(t[0], t[1], any(0, 1)) + std::ldexp(1., -whole(10, 45)) * (t[2] - t[0]);
        break;
      case 1:
        t[2] = t[1];
        break;
      case 2:
        t[1] = t[2] = t[0];
        break;
      case 3:
        t[2] = between(t[0], t[1], 0.5);
        break;
      case 4:
        t[1] = t[0] + std::ldexp(1., -whole(5, 30)) * (t[1] - t[0]);
        t[2] = t[0] + std::ldexp(1., -whole(5, 30)) * (t[2] - t[0]);
        break;
      default:
        break;
    }
    return t;
  }
  /// A point of the triangle, a corner or of a side at times.
  Point3 point_of(const Triangle& t) {
    const double u = whole(0, 2) > 0 ? any(0, 1) : whole(0, 1), v = whole(0, 2) > 0 ? any(0, 1) : whole(0, 1);
    return between(t[0], between(t[1], t[2], v), u);
  }
};

/// The largest coordinate's difference of all these points.
inline double size_of(std::initializer_list<std::span<const Point3>> sets) {
  double size = 0;
  const Point3 first = (*sets.begin())[0];
  for (const auto& set : sets)
    for (const Point3& p : set)
      size = std::max({size, std::abs(p.x - first.x), std::abs(p.y - first.y), std::abs(p.z - first.z)});
  return size;
}

}  // namespace fairlead::sites

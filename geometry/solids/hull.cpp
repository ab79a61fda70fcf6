#include "geometry/solids/hull.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "geometry/solids/farthest.hpp"

namespace fairlead::solids {
namespace {

double length(Vec3 v) { return std::sqrt(dot(v, v)); }

// Where several corners are as far, the first of them.
Point3 farthest(const Hull& hull, Vec3 direction) {
  std::size_t best = 0;
  double most = dot(hull.corners[0], direction);
  for (std::size_t i = 1; i < hull.corners.size(); ++i)
    if (const double reach = dot(hull.corners[i], direction); reach > most) {
      most = reach;
      best = i;
    }
  return hull.at + hull.corners[best];
}

constexpr double precision(const auto&) { return hull_precision; }
constexpr double precision(const Post&) { return hull_precision_round; }

/// A point of b less one of a, and these.
struct Corner {
  Vec3 way;
  Point3 on_a, on_b;
};

/// Up to four corners, and the point of their hull that is nearest to zero.
class Simplex {
 public:
  void add(const Corner& corner) { corners_[count_++] = corner; }
  bool encloses_zero() const { return count_ == 4; }
  bool holds(const Corner& corner) const {
    return std::any_of(corners_.begin(), corners_.begin() + count_,
                       [&](const Corner& c) { return c.way == corner.way; });
  }

  /// Leaves the corners of the face, edge or corner that the nearest point lies on; all four where zero is within.
  /// Then nothing may be added.
  void shrink() {
    best2_ = std::numeric_limits<double>::infinity();
    for (int i = 0; i < static_cast<int>(count_); ++i) {
      try_point(i);
      for (int j = i + 1; j < static_cast<int>(count_); ++j) {
        try_edge(i, j);
        for (int k = j + 1; k < static_cast<int>(count_); ++k) try_face(i, j, k);
      }
    }
    if (count_ == 4) try_inside();
    std::array<Corner, 4> kept;
    std::copy_n(corners_.begin(), count_, kept.begin());
    for (std::size_t n = 0; n < best_count_; ++n) corners_[n] = kept[static_cast<std::size_t>(best_[n])];
    count_ = best_count_;
  }

  Vec3 nearest_to_zero() const {
    Vec3 sum;
    for (std::size_t n = 0; n < count_; ++n) sum += shares_[n] * corners_[n].way;
    return sum;
  }
  Nearest told(double distance_m) const {
    const Point3 a = corners_[0].on_a, b = corners_[0].on_b;
    Vec3 to_a, to_b;
    for (std::size_t n = 1; n < count_; ++n) {
      to_a += shares_[n] * (corners_[n].on_a - a);
      to_b += shares_[n] * (corners_[n].on_b - b);
    }
    return {distance_m, a + to_a, b + to_b};
  }

 private:
  Vec3 at(int i) const { return corners_[static_cast<std::size_t>(i)].way; }

  void take(std::array<int, 4> which, std::array<double, 4> shares, std::size_t count) {
    Vec3 sum;
    for (std::size_t n = 0; n < count; ++n) sum += shares[n] * at(which[n]);
    const double size2 = dot(sum, sum);
    if (!(size2 < best2_)) return;
    best2_ = size2;
    best_ = which;
    shares_ = shares;
    best_count_ = count;
  }
  void try_point(int i) { take({i}, {1}, 1); }
  void try_edge(int i, int j) {
    const Vec3 run = at(j) - at(i);
    const double t = -dot(at(i), run) / dot(run, run);
    if (t > 0 && t < 1) take({i, j}, {1 - t, t}, 2);
  }
  // Square to the face; of a needle's the edges say as much.
  void try_face(int i, int j, int k) {
    const Vec3 u = at(j) - at(i), v = at(k) - at(i), n = cross(u, v);
    const double n2 = dot(n, n);
    if (!(n2 > 0)) return;
    const Vec3 to_zero = -at(i);
    const double s = dot(cross(to_zero, v), n) / n2, t = dot(cross(u, to_zero), n) / n2;
    if (s > 0 && t > 0 && s + t < 1) take({i, j, k}, {1 - s - t, s, t}, 3);
  }
  // Shares as volumes: zero is within when all are of one sign.
  void try_inside() {
    std::array<double, 4> shares;
    for (int i = 0; i < 4; ++i) {
      const Vec3 a = at((i + 1) % 4), n = cross(at((i + 2) % 4) - a, at((i + 3) % 4) - a);
      const double whole = dot(at(i) - a, n), part = -dot(a, n);
      if (!(whole != 0 && part / whole >= 0)) return;
      shares[static_cast<std::size_t>(i)] = part / whole;
    }
    const double sum = shares[0] + shares[1] + shares[2] + shares[3];
    for (double& share : shares) share /= sum;
    take({0, 1, 2, 3}, shares, 4);
  }

  std::array<Corner, 4> corners_;
  std::size_t count_{};
  std::array<int, 4> best_{};
  std::array<double, 4> shares_{};
  std::size_t best_count_{};
  double best2_{};
};

template <class A, class B>
Nearest by_planes(const A& a, const B& b) {
  const auto corner = [&](Vec3 direction) {
    const Point3 on_a = farthest(a, direction), on_b = farthest(b, -direction);
    return Corner{on_b - on_a, on_a, on_b};
  };
  Simplex simplex;
  simplex.add(corner({1, 0, 0}));
  simplex.shrink();
  double size_m = 0, lower_m = 0;
  constexpr int kMost = 500;
  for (int step = 0; step < kMost; ++step) {
    const Vec3 way = simplex.nearest_to_zero();
    const double distance_m = length(way);
    const double precision_m = std::max(precision(a), precision(b)) * std::max(size_m, distance_m);
    if (!(distance_m > precision_m)) return simplex.told(0);
    const Vec3 direction = 1 / distance_m * way;
    const Corner next = corner(direction);
    size_m = std::max(size_m, length(next.way));
    lower_m = std::max(lower_m, dot(direction, next.way));
    if (distance_m - lower_m <= precision_m || simplex.holds(next)) return simplex.told(distance_m);
    Simplex grown = simplex;
    grown.add(next);
    grown.shrink();
    if (grown.encloses_zero()) return grown.told(0);
    if (!(length(grown.nearest_to_zero()) < distance_m)) return simplex.told(distance_m);  // rounding is all there is
    simplex = grown;
  }
  return simplex.told(lower_m);  // never seen: too near rather than too far
}

}  // namespace

Bounds bounds_of(const Hull& hull) {
  Vec3 low = hull.corners.front(), high = low;
  for (const Vec3& c : hull.corners) {
    low = {std::min(low.x, c.x), std::min(low.y, c.y), std::min(low.z, c.z)};
    high = {std::max(high.x, c.x), std::max(high.y, c.y), std::max(high.z, c.z)};
  }
  return {hull.at + low, hull.at + high};
}

Nearest nearest(const Segment& a, const Hull& b) { return by_planes(a, b); }
Nearest nearest(const Box& a, const Hull& b) { return by_planes(a, b); }
Nearest nearest(const Hull& a, const Hull& b) { return by_planes(a, b); }
Nearest nearest(const Hull& a, const Box& b) { return by_planes(a, b); }
Nearest nearest(const Hull& a, const Post& b) { return by_planes(a, b); }
Nearest nearest(const Hull& a, const Plane& b) {
  const Point3 deepest = farthest(a, -b.normal);
  const double height = dot(deepest - b.through, b.normal);
  return {height, deepest, deepest - height * b.normal};
}
Nearest nearest(const Hull& a, const Shape& b) {
  return std::visit([&](const auto& shape) { return nearest(a, shape); }, b);
}

}  // namespace fairlead::solids

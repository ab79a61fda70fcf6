#include "geometry/sites/exact.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

namespace fairlead::sites {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
/// Of the size of shape and item: what rounding leaves of a distance of nothing.
constexpr double rounding = 16 * std::numeric_limits<double>::epsilon();

/// A number of twice a double's digits, for the few distances a double can not settle.
__extension__ typedef __float128 Quad;  // NOLINT(modernize-use-using)

template <class Real>
struct V3 {
  Real x{}, y{}, z{};
  friend V3 operator+(V3 a, V3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend V3 operator-(V3 a, V3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend V3 operator*(Real s, V3 a) { return {s * a.x, s * a.y, s * a.z}; }
  friend Real dot(V3 a, V3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
  friend V3 cross(V3 a, V3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
};
template <class Real>
V3<Real> from(Point3 origin, Point3 p) {
  return {Real(p.x) - Real(origin.x), Real(p.y) - Real(origin.y), Real(p.z) - Real(origin.z)};
}

/// A triangle by its longest side: i, i + 1, i + 2 of its corners, the side from the first to the second. Places are
/// counted from the side, not from a corner, so that a needle's plane may turn about its length as rounding will
/// without moving a point of it.
template <class Real>
struct Frame {
  using Vector = V3<Real>;
  int first{};
  Vector start, side, height;  ///< height: from the side's line to the third corner
  Real side2{}, height2{}, foot{};
  explicit Frame(const Vector (&v)[3]) {
    for (int i = 0; i < 3; ++i) {
      const Vector one = v[(i + 1) % 3] - v[i];
      if (const Real length2 = dot(one, one); length2 > side2) side2 = length2, first = i;
    }
    start = v[first];
    side = v[(first + 1) % 3] - start;
    if (side2 == 0) return;
    const Vector third = v[(first + 2) % 3] - start;
    foot = dot(third, side) / side2;
    height = third - foot * side;
    height = height - (dot(height, side) / side2) * side;
    height2 = dot(height, height);
  }
  bool flat() const { return !(side2 > 0 && height2 > 0); }
};

template <class Real>
struct Share {
  Real of_first{}, of_second{}, of_third{};  ///< in the order of the frame
  V3<Real> at;
  bool inside{};
};
template <class Real>
Share<Real> straight_down(V3<Real> p, const Frame<Real>& frame) {
  const V3<Real> r = p - frame.start;
  const Real along = dot(r, frame.side) / frame.side2;
  const Real up = dot(r - along * frame.side, frame.height) / frame.height2;
  const Real second = along - up * frame.foot, first = 1 - second - up;
  return {first, second, up, frame.start + (along * frame.side + up * frame.height),
          first >= 0 && second >= 0 && up >= 0};
}

template <class Real>
Real share_nearest(V3<Real> p, V3<Real> begin, V3<Real> run) {
  const Real length2 = dot(run, run), along = dot(p - begin, run);
  if (!(length2 > 0 && along > 0)) return 0;
  return along < length2 ? along / length2 : Real(1);
}

using Vector = V3<double>;
Point3 about(Point3 origin, Vector v) { return origin + Vec3{v.x, v.y, v.z}; }

struct Best {
  double distance2 = infinite;
  Vector p, q;
  void take(Vector on_shape, Vector on_item) {
    const Vector d = on_shape - on_item;
    if (const double d2 = dot(d, d); d2 < distance2) distance2 = d2, p = on_shape, q = on_item;
  }
};

/// The answer about the datum again.
Apart answer(const Best& best, double size, Point3 origin) {
  const double distance = std::sqrt(best.distance2);
  if (distance <= rounding * size) return {0, about(origin, best.q), about(origin, best.q)};
  return {distance, about(origin, best.p), about(origin, best.q)};
}

/// The insides of two stretches; their ends are others' matter.
void between_lines(Vector a, Vector u, Vector b, Vector v, Best& best) {
  const Vector n = cross(u, v), r = b - a;
  const double n2 = dot(n, n);
  if (!(n2 > 0)) return;
  const double s = dot(cross(r, v), n) / n2;
  if (!(s > 0 && s < 1)) return;
  // Of lines as good as parallel s is rough; what is straight across from there is as near.
  const Vector p = a + s * u;
  best.take(p, b + share_nearest(p, b, v) * v);
}

}  // namespace

// The nearest points are an end above the triangle's inside, or where the segment passes through it, or the segment's
// and a side's.
Apart segment_to_item(Point3 begin, Point3 end, std::span<const Point3> item) {
  const Point3 origin = item[0];
  const Vector a = from<double>(origin, begin), b = from<double>(origin, end), run = from<double>(begin, end);
  double size2 = std::max(dot(a, a), dot(b, b));
  Best best;
  if (item.size() == 1) {
    best.take(a + share_nearest(Vector{}, a, run) * run, {});
    return answer(best, std::sqrt(size2), origin);
  }
  const Vector v[3] = {{}, from<double>(origin, item[1]), from<double>(origin, item[2])};
  size2 = std::max({size2, dot(v[1], v[1]), dot(v[2], v[2])});
  for (int i = 0; i < 3; ++i) {
    const Vector side = v[(i + 1) % 3] - v[i];
    best.take(a + share_nearest(v[i], a, run) * run, v[i]);
    best.take(a, v[i] + share_nearest(a, v[i], side) * side);
    best.take(b, v[i] + share_nearest(b, v[i], side) * side);
    between_lines(a, run, v[i], side, best);
  }
  if (const Frame<double> frame(v); !frame.flat()) {
    const auto above = [&](Vector p) {
      if (const Share<double> share = straight_down(p, frame); share.inside) best.take(p, share.at);
    };
    above(a);
    above(b);
    const Vector normal = cross(frame.side, frame.height);
    const auto height = [&](Vector p) {
      const Vector r = p - frame.start;
      return dot(r - (dot(r, frame.side) / frame.side2) * frame.side, normal);
    };
    const double at_a = height(a), at_b = height(b);
    if ((at_a > 0) != (at_b > 0)) above(a + (at_a / (at_a - at_b)) * run);
  }
  return answer(best, std::sqrt(size2), origin);
}

namespace {

/// Gilbert, Johnson and Keerthi's descent (GJK88): the point of the difference of hull and item that is nearest to the
/// origin is sought by adding the corner farthest against the nearest point so far.
template <class Real>
class Descent {
 public:
  Descent(std::span<const Point3> hull, std::span<const Point3> item) : item_(item.size()) {
    for (std::size_t i = 0; i < item_; ++i) q_[i] = from<Real>(item[0], item[i]), widen(q_[i]);
    for (const Point3& p : hull) p_.push_back(from<Real>(item[0], p)), widen(p_.back());
    size_ = std::sqrt(size2_);
  }
  double size() const { return size_; }
  double at_least() const { return at_least_; }  ///< the distance is no less; above `most` where that was passed
  double distance() const { return distance_; }
  Vector on_hull() const { return sum(&Corner::p); }
  Vector on_item() const { return sum(&Corner::q); }

  void run(double most) {
    take(farthest_against(p_[0]));
    share_[0] = 1;
    // A few more steps than the difference has corners would do; nothing but rounding takes as many.
    for (int step = 0; step < 200; ++step) {
      const Vector3 v = nearest(corner_, share_, count_);
      const Real distance2 = dot(v, v);
      distance_ = std::sqrt(static_cast<double>(distance2));
      if (distance_ <= rounding * size_) return;
      const Corner corner = farthest_against(v);
      at_least_ = std::max(at_least_, static_cast<double>(dot(v, corner.at)) / distance_);
      if (at_least_ - rounding * size_ > most || distance_ - at_least_ <= rounding / 4 * size_) return;
      for (int i = 0; i < count_; ++i)
        if (corner_[i].i == corner.i && corner_[i].j == corner.j) return;
      take(corner);
      if (count_ == 4 && within()) {
        distance_ = at_least_ = 0;
        return;
      }
      if (!reduce(distance2)) {
        share_[--count_] = 0;
        return;
      }
    }
  }

 private:
  using Vector3 = V3<Real>;
  /// A corner of the difference.
  struct Corner {
    Vector3 at, p, q;
    std::size_t i{}, j{};
  };

  void widen(Vector3 v) { size2_ = std::max(size2_, static_cast<double>(dot(v, v))); }
  Corner farthest_against(Vector3 v) const {
    std::size_t i = 0, j = 0;
    Real low = dot(v, p_[0]), high = dot(v, q_[0]);
    for (std::size_t k = 1; k < p_.size(); ++k)
      if (const Real here = dot(v, p_[k]); here < low) low = here, i = k;
    for (std::size_t k = 1; k < item_; ++k)
      if (const Real here = dot(v, q_[k]); here > high) high = here, j = k;
    return {p_[i] - q_[j], p_[i], q_[j], i, j};
  }
  void take(const Corner& corner) { corner_[count_++] = corner; }
  static Vector3 nearest(const Corner (&corner)[4], const Real (&share)[4], int count) {
    Vector3 sum;
    for (int i = 0; i < count; ++i) sum = sum + share[i] * corner[i].at;
    return sum;
  }
  Vector sum(Vector3 Corner::*of) const {
    Vector3 sum;
    for (int i = 0; i < count_; ++i) sum = sum + share_[i] * (corner_[i].*of);
    return {static_cast<double>(sum.x), static_cast<double>(sum.y), static_cast<double>(sum.z)};
  }

  /// True where the origin lies within the tetrahedron; its shares are then set. One that is flat but for rounding has
  /// no inside: its faces are as near.
  bool within() {
    Real share[4];
    for (int i = 0; i < 4; ++i) {
      const Vector3 a = corner_[i].at, b = corner_[(i + 1) % 4].at - a, c = corner_[(i + 2) % 4].at - a,
                    d = corner_[(i + 3) % 4].at - a, n = cross(b, c);
      const Real fourth = dot(n, d), origin = Real(0) - dot(n, a);
      const Real flat2 = Real(rounding * rounding) * dot(n, n) * Real(size2_);
      if (!(fourth * fourth > flat2) || (fourth > 0) != (origin > 0) || origin == 0) return false;
      share[(i + 3) % 4] = origin / fourth;
    }
    std::copy(share, share + 4, share_);
    return true;
  }

  /// To the least simplex among the corners' that holds the point nearest to the origin. Every subset is tried: no sign
  /// that rounding might turn decides alone. False where none is nearer than before.
  bool reduce(Real before2) {
    Corner best[4];
    Real best_share[4]{};
    int best_count = 0;
    const auto consider = [&](std::initializer_list<std::pair<int, Real>> corners) {
      Corner some[4];
      Real share[4]{};
      int count = 0;
      for (const auto& [corner, of_it] : corners) some[count] = corner_[corner], share[count++] = of_it;
      const Vector3 v = nearest(some, share, count);
      const Real d2 = dot(v, v);
      if (!(d2 < before2)) return;
      before2 = d2;
      std::copy(some, some + 4, best);
      std::copy(share, share + 4, best_share);
      best_count = count;
    };
    for (int i = 0; i < count_; ++i) {
      consider({{i, Real(1)}});
      for (int j = i + 1; j < count_; ++j) {
        const Real t = share_nearest(Vector3{}, corner_[i].at, corner_[j].at - corner_[i].at);
        if (t > 0 && t < 1) consider({{i, 1 - t}, {j, t}});
        for (int k = j + 1; k < count_; ++k) {
          const int at[3] = {i, j, k};
          const Frame<Real> frame({corner_[i].at, corner_[j].at, corner_[k].at});
          if (frame.flat()) continue;
          const Share<Real> share = straight_down(Vector3{}, frame);
          if (share.inside)
            consider({{at[frame.first], share.of_first},
                      {at[(frame.first + 1) % 3], share.of_second},
                      {at[(frame.first + 2) % 3], share.of_third}});
        }
      }
    }
    if (best_count == 0) return false;
    std::copy(best, best + 4, corner_);
    std::copy(best_share, best_share + 4, share_);
    count_ = best_count;
    return true;
  }

  std::size_t item_;
  Vector3 q_[3];
  std::vector<Vector3> p_;
  double size2_ = 0, size_ = 0, at_least_ = 0, distance_ = 0;
  Corner corner_[4];
  Real share_[4]{};
  int count_ = 0;
};

template <class Real>
std::optional<Apart> settled(std::span<const Point3> hull, std::span<const Point3> item, double most, double doubt) {
  Descent<Real> descent(hull, item);
  descent.run(most);
  if (descent.at_least() - rounding * descent.size() > most) return Apart{descent.at_least(), hull[0], item[0]};
  if (!(descent.distance() - descent.at_least() <= doubt * descent.size())) return std::nullopt;
  const Point3 on_item = about(item[0], descent.on_item());
  if (descent.distance() <= rounding * descent.size()) return Apart{0, on_item, on_item};
  return Apart{descent.distance(), about(item[0], descent.on_hull()), on_item};
}

}  // namespace

// Where rounding stops the descent of a double before its lower bound meets it, as of needles that all but touch, one
// of twice the digits goes on.
Apart hull_to_item(std::span<const Point3> hull, std::span<const Point3> item, double most) {
  constexpr double little = 1e-13;
  if (const auto apart = settled<double>(hull, item, most, little)) return *apart;
  return *settled<Quad>(hull, item, most, infinite);
}

}  // namespace fairlead::sites

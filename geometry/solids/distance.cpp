#include "geometry/solids/distance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace fairlead::solids {
namespace {

/// norm() guards against squares beyond 1e154 m or below 1e-154 m; lengths of solids need no guard, which costs more
/// than all the rest.
double length(Vec3 v) { return std::sqrt(dot(v, v)); }

double beyond(double x, double half) { return x > half ? x - half : x < -half ? x + half : 0; }

/// Where f falls to its least on 0..1, f convex and `slope` its derivative. Between neighbouring `kinks` the slope is
/// taken as straight.
template <class Slope, std::size_t N>
double least_between_kinks(Slope slope, const std::array<double, N>& kinks) {
  double low = 0, high = 1, at_low = slope(0.), at_high = slope(1.);
  if (at_low >= 0) return 0;
  if (at_high <= 0) return 1;
  for (const double t : kinks) {
    if (!(low < t && t < high)) continue;
    const double at = slope(t);
    (at < 0 ? low : high) = t;
    (at < 0 ? at_low : at_high) = at;
  }
  return low - at_low * (high - low) / (at_high - at_low);
}

/// The same for any rising slope: secants kept in a bracket that is halved at every third step, to its last digit.
template <class Slope>
double least_by_secants(Slope slope) {
  double low = 0, high = 1, at_low = slope(0.), at_high = slope(1.);
  if (at_low >= 0) return 0;
  if (at_high <= 0) return 1;
  constexpr int kMost = 3 * 55;  // halves 1 to below its rounding
  for (int i = 0; i < kMost; ++i) {
    double t = i % 3 == 2 ? low + (high - low) / 2 : low - at_low * (high - low) / (at_high - at_low);
    if (!(low < t && t < high)) t = low + (high - low) / 2;
    if (!(low < t && t < high)) break;
    const double at = slope(t);
    if (at == 0) return t;
    (at < 0 ? low : high) = t;
    (at < 0 ? at_low : at_high) = at;
  }
  return -at_low < at_high ? low : high;
}

Point3 along(const Segment& s, double t) { return s.from + t * (s.to - s.from); }

double share_nearest(Point3 p, const Segment& s) {
  const Vec3 run = s.to - s.from;
  const double length2 = dot(run, run);
  return length2 > 0 ? std::clamp(dot(p - s.from, run) / length2, 0., 1.) : 0;
}

struct InBox {
  double p[3], d[3], half[3];
  InBox(const Segment& s, const Box& box) {
    const Vec3 from = s.from - box.centre, run = s.to - s.from;
    const Vec3* axes[3] = {&box.x, &box.y, &box.z};
    const double halves[3] = {box.half_m.x, box.half_m.y, box.half_m.z};
    for (int i = 0; i < 3; ++i) {
      p[i] = dot(from, *axes[i]);
      d[i] = dot(run, *axes[i]);
      half[i] = halves[i];
    }
  }
};

}  // namespace

// The least is inside the square of both shares, found square to both lines, or on its border, where one of the shares
// is an end. The cross product keeps its digits for lines as good as parallel.
Nearest nearest(const Segment& a, const Segment& b) {
  double best2 = std::numeric_limits<double>::infinity();
  Point3 on_a = a.from, on_b = b.from;
  const auto take = [&](Point3 p, Point3 q) {
    const double distance2 = dot(q - p, q - p);
    if (distance2 >= best2) return;
    best2 = distance2;
    on_a = p;
    on_b = q;
  };
  for (const Point3& p : {a.from, a.to}) take(p, along(b, share_nearest(p, b)));
  for (const Point3& q : {b.from, b.to}) take(along(a, share_nearest(q, a)), q);
  const Vec3 u = a.to - a.from, v = b.to - b.from, n = cross(u, v), r = b.from - a.from;
  const double n2 = dot(n, n);
  if (n2 > 0) {
    const double s = dot(cross(r, v), n) / n2, t = dot(cross(r, u), n) / n2;
    if (s > 0 && s < 1 && t > 0 && t < 1) take(along(a, s), along(b, t));
  }
  return {std::sqrt(best2), on_a, on_b};
}

// Half the squared distance along the segment is convex and, between its passages through the box's six planes,
// quadratic.
Nearest nearest(const Segment& s, const Box& box) {
  const InBox in(s, box);
  const auto slope = [&](double t) {
    double sum = 0;
    for (int i = 0; i < 3; ++i) sum += beyond(in.p[i] + t * in.d[i], in.half[i]) * in.d[i];
    return sum;
  };
  std::array<double, 6> kinks;
  for (std::size_t i = 0; i < 3; ++i) {
    kinks[2 * i] = (-in.half[i] - in.p[i]) / in.d[i];
    kinks[2 * i + 1] = (in.half[i] - in.p[i]) / in.d[i];
  }
  const double t = least_between_kinks(slope, kinks);
  double e[3];
  for (int i = 0; i < 3; ++i) e[i] = beyond(in.p[i] + t * in.d[i], in.half[i]);
  const Point3 p = along(s, t);
  return {length({e[0], e[1], e[2]}), p, p - (e[0] * box.x + e[1] * box.y + e[2] * box.z)};
}

Nearest nearest(const Segment& s, const Post& post) {
  const Vec3 whole = post.to - post.from, axis = unit(whole);
  const double half = length(whole) / 2;
  const Vec3 from = s.from - (post.from + 0.5 * whole), run = s.to - s.from;
  const double z0 = dot(from, axis), dz = dot(run, axis);
  const Vec3 q0 = from - z0 * axis, dq = run - dz * axis;
  // Where it is nearest to the axis, when that is between the ends' planes, nothing is left to be sought.
  const double dq2 = dot(dq, dq), beside = dq2 > 0 ? std::clamp(-dot(q0, dq) / dq2, 0., 1.) : 0;
  const auto slope = [&](double t) {
    const Vec3 q = q0 + t * dq;
    const double rho = length(q), out = rho - post.radius_m;
    return beyond(z0 + t * dz, half) * dz + (out > 0 ? out * dot(q, dq) / rho : 0);
  };
  const double t = beyond(z0 + beside * dz, half) == 0 ? beside : least_by_secants(slope);
  const Vec3 q = q0 + t * dq;
  const double rho = length(q), up = beyond(z0 + t * dz, half);
  const Vec3 gap = up * axis + (rho > post.radius_m ? (1 - post.radius_m / rho) * q : Vec3{});
  const Point3 p = along(s, t);
  return {length(gap), p, p - gap};
}

Nearest nearest(const Segment& s, const Plane& plane) {
  const double from = dot(s.from - plane.through, plane.normal), to = dot(s.to - plane.through, plane.normal);
  const Point3 p = to < from ? s.to : s.from;
  const double height = to < from ? to : from;
  return {height, p, p - height * plane.normal};
}

double length_within(const Segment& s, const Box& box) {
  const InBox in(s, box);
  double enters = 0, leaves = 1;
  for (int i = 0; i < 3; ++i) {
    if (in.d[i] == 0) {
      if (std::abs(in.p[i]) > in.half[i]) return 0;
      continue;
    }
    const double one = (-in.half[i] - in.p[i]) / in.d[i], other = (in.half[i] - in.p[i]) / in.d[i];
    enters = std::max(enters, std::min(one, other));
    leaves = std::min(leaves, std::max(one, other));
  }
  return leaves > enters ? (leaves - enters) * norm(s.to - s.from) : 0;
}

Nearest nearest(const Segment& s, const Shape& shape) {
  return std::visit([&](const auto& solid) { return nearest(s, solid); }, shape);
}

Bounds bounds_of(const Segment& s) {
  return {{std::min(s.from.x, s.to.x), std::min(s.from.y, s.to.y), std::min(s.from.z, s.to.z)},
          {std::max(s.from.x, s.to.x), std::max(s.from.y, s.to.y), std::max(s.from.z, s.to.z)}};
}

Bounds bounds_of(const Shape& shape) {
  if (const Box* box = std::get_if<Box>(&shape)) {
    const auto reach = [&](double x, double y, double z) {
      return std::abs(x) * box->half_m.x + std::abs(y) * box->half_m.y + std::abs(z) * box->half_m.z;
    };
    const Vec3 half{reach(box->x.x, box->y.x, box->z.x), reach(box->x.y, box->y.y, box->z.y),
                    reach(box->x.z, box->y.z, box->z.z)};
    return {box->centre - half, box->centre + half};
  }
  if (const Post* post = std::get_if<Post>(&shape)) {
    const Bounds axis = bounds_of(Segment{post->from, post->to});
    const Vec3 round{post->radius_m, post->radius_m, post->radius_m};
    return {axis.low - round, axis.high + round};
  }
  constexpr double far = std::numeric_limits<double>::infinity();
  return {{-far, -far, -far}, {far, far, far}};
}

double gap_between(const Bounds& a, const Bounds& b) {
  const auto apart = [](double a_low, double a_high, double b_low, double b_high) {
    return std::max(0., std::max(b_low - a_high, a_low - b_high));
  };
  const double x = apart(a.low.x, a.high.x, b.low.x, b.high.x), y = apart(a.low.y, a.high.y, b.low.y, b.high.y),
               z = apart(a.low.z, a.high.z, b.low.z, b.high.z);
  return std::sqrt(x * x + y * y + z * z);
}

}  // namespace fairlead::solids

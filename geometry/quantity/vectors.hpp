// Places and displacements of the site frame: right-handed, z up, metres.
#pragma once

#include <cmath>

namespace fairlead {

/// A displacement, direction or force in the site frame (m, - or N; the name of the variable says).
struct Vec3 {
  double x{}, y{}, z{};
  bool operator==(const Vec3&) const = default;
};

/// A place in the site frame, metres from the datum. Two places have a difference and no sum.
struct Point3 {
  double x{}, y{}, z{};
  bool operator==(const Point3&) const = default;
};

constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
constexpr Vec3 operator*(double s, Vec3 a) { return {s * a.x, s * a.y, s * a.z}; }
constexpr Vec3& operator+=(Vec3& a, Vec3 b) { return a = a + b; }
constexpr Vec3& operator-=(Vec3& a, Vec3 b) { return a = a - b; }
constexpr Vec3 operator-(Point3 to, Point3 from) { return {to.x - from.x, to.y - from.y, to.z - from.z}; }
constexpr Point3 operator+(Point3 p, Vec3 d) { return {p.x + d.x, p.y + d.y, p.z + d.z}; }
constexpr Point3 operator-(Point3 p, Vec3 d) { return {p.x - d.x, p.y - d.y, p.z - d.z}; }

constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
/// A NaN stays one; of three numbers g++ 12's std::hypot makes 0 of (0, NaN, 0).
inline double norm(Vec3 a) { return std::hypot(std::hypot(a.x, a.y), a.z); }
/// The unit vector along a. The zero vector has none: the result is then NaN, which no check passes.
inline Vec3 unit(Vec3 a) { return (1 / norm(a)) * a; }

}  // namespace fairlead

// Rolling ground as a binary STL file, and the lines of a rider's way above it: 200 poses of 11 each.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstring>
#include <initializer_list>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "geometry/sites/site.hpp"

namespace fairlead::sites::bench {

/// A square kilometre of about `triangles` triangles, row by row or in no order.
inline std::string ground(double triangles, bool shuffled = false) {
  const auto n = static_cast<std::uint32_t>(std::lround(std::sqrt(triangles / 2)));
  const std::uint32_t count = 2 * n * n;
  std::string file(84 + 50 * std::size_t{count}, '\0');
  std::memcpy(file.data() + 80, &count, 4);
  std::vector<std::uint32_t> place(count);
  for (std::uint32_t i = 0; i < count; ++i) place[i] = i;
  if (shuffled) std::shuffle(place.begin(), place.end(), std::mt19937(1));
  const double side = 1000. / n;
  std::uint32_t next = 0;
  const auto put = [&](std::initializer_list<std::pair<std::uint32_t, std::uint32_t>> corners) {
    float c[9];
    int at = 0;
    for (const auto& [i, j] : corners) {
      const double x = side * i, y = side * j;
      c[at++] = static_cast<float>(x);
      c[at++] = static_cast<float>(y);
      c[at++] = static_cast<float>(20 * std::sin(x / 90) * std::cos(y / 70) + 6 * std::sin(x / 13 + y / 17) +
                                   0.7 * std::sin(x * 1.3) * std::cos(y * 1.7));
    }
    std::memcpy(file.data() + 96 + 50 * std::size_t{place[next++]}, c, sizeof c);
  };
  for (std::uint32_t i = 0; i < n; ++i)
    for (std::uint32_t j = 0; j < n; ++j) {
      put({{i, j}, {i + 1, j}, {i + 1, j + 1}});
      put({{i, j}, {i + 1, j + 1}, {i, j + 1}});
    }
  return file;
}

inline constexpr std::size_t per_pose = 11;

/// Each pose: the main line up and down, and nine lines about the trolley.
inline std::vector<Capsule> lines() {
  std::vector<Capsule> all;
  const Point3 high{50, 500, 90}, low{950, 480, 45};
  for (int pose = 0; pose < 200; ++pose) {
    const double u = (pose + 0.5) / 200;
    const Point3 trolley = high + u * (low - high) - Vec3{0, 0, 60 * u * (1 - u)};
    all.push_back({high, trolley});
    all.push_back({trolley, low});
    for (int k = 0; k < 9; ++k) {
      const double turn = 0.7 * k, out = 3 + 2. * k;
      const Point3 end = trolley + Vec3{out * std::cos(turn), out * std::sin(turn), -2 - 0.8 * k};
      all.push_back({k % 2 ? trolley : trolley + Vec3{1, 1, -1}, end});
    }
  }
  return all;
}

/// A rider below each line's end: the corners of a box that turns.
inline std::vector<std::vector<Point3>> riders() {
  std::vector<std::vector<Point3>> all;
  for (const Capsule& line : lines()) {
    const double turn = 0.01 * static_cast<double>(all.size());
    std::vector<Point3> box;
    for (int corner = 0; corner < 8; ++corner) {
      const double x = corner & 1 ? 0.3 : -0.3, y = corner & 2 ? 0.4 : -0.4, z = corner & 4 ? 0 : -2;
      box.push_back(line.to + Vec3{x * std::cos(turn) - 0.2 * z, y + x * std::sin(turn), z});
    }
    all.push_back(box);
  }
  return all;
}

}  // namespace fairlead::sites::bench

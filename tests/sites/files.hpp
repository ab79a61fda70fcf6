// Site files made in memory.
#pragma once

#include <array>
#include <cmath>
#include <cstring>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/quantity/vectors.hpp"

namespace fairlead::sites {

using Corners = std::vector<std::array<Point3, 3>>;

inline std::span<const std::byte> bytes_of(std::string_view text) {
  return {reinterpret_cast<const std::byte*>(text.data()), text.size()};
}

template <class T>
void append(std::string& file, T value, bool big_endian = false) {
  std::array<char, sizeof(T)> raw;
  std::memcpy(raw.data(), &value, sizeof value);
  file += big_endian ? std::string(raw.rbegin(), raw.rend()) : std::string(raw.begin(), raw.end());
}

inline std::string binary_stl(const Corners& triangles, std::string_view header = "") {
  std::string file(header);
  file.resize(80, ' ');
  append(file, static_cast<std::uint32_t>(triangles.size()));
  for (const auto& triangle : triangles) {
    file.append(12, '\0');
    for (const Point3& p : triangle)
      for (const double c : {p.x, p.y, p.z}) append(file, static_cast<float>(c));
    file.append(2, '\0');
  }
  return file;
}

/// Little-endian, doubles, every triangle with its own vertices.
inline std::string binary_ply(const Corners& triangles) {
  std::string file = "ply\nformat binary_little_endian 1.0\nelement vertex " + std::to_string(3 * triangles.size()) +
                     "\nproperty double x\nproperty double y\nproperty double z\nelement face " +
                     std::to_string(triangles.size()) + "\nproperty list uchar int vertex_indices\nend_header\n";
  for (const auto& triangle : triangles)
    for (const Point3& p : triangle)
      for (const double c : {p.x, p.y, p.z}) append(file, c);
  for (std::int32_t i = 0; i < static_cast<std::int32_t>(3 * triangles.size()); i += 3) {
    file += '\3';
    for (std::int32_t k = 0; k < 3; ++k) append(file, i + k);
  }
  return file;
}

/// Rolling ground, n by n cells of two triangles, row by row.
inline Corners terrain(int n, double side_m) {
  const auto at = [&](int i, int j) {
    const double x = side_m * i / n, y = side_m * j / n;
    return Point3{x, y, 4 * std::sin(x / 17) * std::cos(y / 13) + 0.3 * std::sin(x * 1.3) * std::cos(y * 1.7)};
  };
  Corners triangles;
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      triangles.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1)});
      triangles.push_back({at(i, j), at(i + 1, j + 1), at(i, j + 1)});
    }
  return triangles;
}

}  // namespace fairlead::sites

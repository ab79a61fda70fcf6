// The triangles or points of a site as they lie in memory: in a mapped file, or in arrays made of one.
#pragma once

#include <cstddef>
#include <cstdint>

namespace fairlead::sites {

/// Coordinates in the file's own axes and unit, three of a corner side by side, in no alignment. An item is a triangle
/// or a point.
struct Items {
  const std::byte* coordinates{};
  std::size_t stride{};        ///< bytes from one item's coordinates to the next's; with indices, one vertex's
  bool wide{};                 ///< coordinates are double; else float, and four bytes before them may be read
  int corners = 3;             ///< of an item: 3, or 1
  const std::byte* indices{};  ///< three std::uint32_t of a triangle, each a vertex; null: corners follow each other
  std::size_t index_stride{};  ///< bytes from one triangle's to the next's
  std::uint32_t count{};       ///< of items
  std::uint32_t vertices{};    ///< with indices; all of them are less
};

/// Of a block, but for the last. Fewer than a row of triangles across a terrain, so that blocks are no long strips.
inline constexpr std::uint32_t per_block = 8;

// Static, for search.cpp is compiled for two machines: a function they shared might be the wrong one.

/// Where x, y, z of a corner stand.
static inline const std::byte* corner_at(const Items& items, std::uint32_t item, int corner) {
  if (items.indices == nullptr)
    return items.coordinates + items.stride * item + static_cast<std::size_t>(corner) * (items.wide ? 24 : 12);
  std::uint32_t vertex = 0;
  __builtin_memcpy(&vertex, items.indices + items.index_stride * item + 4 * static_cast<std::size_t>(corner), 4);
  return items.coordinates + items.stride * vertex;
}

/// x, y, z of a corner.
static inline void read_corner(const Items& items, std::uint32_t item, int corner, double (&out)[3]) {
  const std::byte* at = corner_at(items, item, corner);
  if (items.wide) {
    __builtin_memcpy(out, at, sizeof out);
  } else {
    float narrow[3];
    __builtin_memcpy(narrow, at, sizeof narrow);
    for (int i = 0; i < 3; ++i) out[i] = static_cast<double>(narrow[i]);
  }
}

}  // namespace fairlead::sites

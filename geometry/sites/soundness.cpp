#include "geometry/sites/soundness.hpp"

#include <algorithm>
#include <array>
#include <numeric>

namespace fairlead::sites {
namespace {

/// For every corner the number of its place; equal coordinates have the same.
std::vector<std::uint32_t> places(const Items& items) {
  const std::size_t corners = std::size_t{3} * items.count;
  std::vector<std::array<double, 3>> at(corners);
  for (std::size_t i = 0; i < corners; ++i) {
    double c[3];
    read_corner(items, static_cast<std::uint32_t>(i / 3), static_cast<int>(i % 3), c);
    at[i] = {c[0], c[1], c[2]};
  }
  std::vector<std::uint32_t> order(corners), place(corners);
  std::iota(order.begin(), order.end(), std::uint32_t{0});
  std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return at[a] < at[b]; });
  for (std::size_t i = 1; i < corners; ++i)
    place[order[i]] = place[order[i - 1]] + (at[order[i]] == at[order[i - 1]] ? 0 : 1);
  return place;
}

}  // namespace

Edges edges_of(const Items& items) {
  Edges edges;
  if (items.corners != 3 || items.count == 0) return edges;
  const std::vector<std::uint32_t> place = places(items);
  struct Edge {
    std::uint32_t low, high;
    bool upward;
    auto operator<=>(const Edge&) const = default;
  };
  std::vector<Edge> all;
  std::vector<std::array<std::uint32_t, 3>> triangles;
  for (std::size_t i = 0; i < place.size(); i += 3) {
    std::array<std::uint32_t, 3> corner{place[i], place[i + 1], place[i + 2]};
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t from = corner[k], to = corner[(k + 1) % 3];
      if (from != to) all.push_back({std::min(from, to), std::max(from, to), from < to});
    }
    std::sort(corner.begin(), corner.end());
    triangles.push_back(corner);
  }
  std::sort(all.begin(), all.end());
  for (auto first = all.begin(); first != all.end();) {
    const auto last = std::find_if(
        first, all.end(), [&](const Edge& edge) { return edge.low != first->low || edge.high != first->high; });
    const auto count = last - first;
    edges.open += count == 1;
    edges.non_manifold += count > 2;
    edges.inverted += count == 2 && first->upward == (first + 1)->upward;
    first = last;
  }
  std::sort(triangles.begin(), triangles.end());
  const auto distinct = std::unique(triangles.begin(), triangles.end()) - triangles.begin();
  edges.duplicate = items.count - static_cast<std::uint32_t>(distinct);
  return edges;
}

}  // namespace fairlead::sites

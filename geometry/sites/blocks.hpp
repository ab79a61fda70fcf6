// How the items of a site are put into blocks, and blocks into the order of the tree.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/sites/items.hpp"
#include "geometry/sites/unfilled.hpp"
#include "geometry/solids/distance.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::sites {

/// solids::Bounds that nobody fills unasked.
struct BlockBox {
  double low[3], high[3];
};
inline solids::Bounds bounds(const BlockBox& box) {
  return {{box.low[0], box.low[1], box.low[2]}, {box.high[0], box.high[1], box.high[2]}};
}

/// The boxes of runs of items.
struct Blocks {
  Unfilled<BlockBox> boxes;
  solids::Bounds hull;     ///< of them all
  double surfaces{};       ///< half of what each box has, summed
  std::uint32_t flat{};    ///< triangles without an area
  std::uint32_t astray{};  ///< first item with a coordinate that is unknown or beyond `farthest`
  bool has_astray{};
};
/// `order`: item at each place; empty: the file's.
Blocks blocks_of(const Items&, const std::vector<std::uint32_t>& order, double farthest, const Work&);

/// True where runs of items lie together: the boxes' mean surface is no more than a few times what it would be were as
/// many items spread evenly through the whole box, which no shuffled file comes near to.
bool in_spatial_order(const Blocks&, std::uint32_t items);

/// The items along Hilbert's curve by the centres of their boxes; equal places in the file's order.
std::vector<std::uint32_t> along_a_curve(const Items&, const solids::Bounds& all, const Work&);

/// The blocks such that each eight, each sixty-four and so on lie together: split at the median along the longest side,
/// which saves a quarter of a search. Of more than some hundred thousand items they are along the curve, for that is
/// sooner done by more than all searches of a rig would save.
std::vector<std::uint32_t> blocks_together(const Unfilled<BlockBox>&, const solids::Bounds& all, const Work&);

}  // namespace fairlead::sites

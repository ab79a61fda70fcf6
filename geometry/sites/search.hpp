// The walk through the tree that finds which items may be nearest. It prunes in float and never leaves out one that is
// nearest: what it hands on is measured in double elsewhere, so no digit of a result is made here. search.cpp is
// compiled twice, for any x86-64 and for AVX2; tree.cpp chooses.
#pragma once

#include <cstdint>

#include "geometry/sites/items.hpp"

namespace fairlead::sites {

/// Eight boxes, about the tree's origin, rounded outward.
struct alignas(64) Node {
  float low[3][8], high[3][8];
};

/// Eight blocks, each a run of eight items, make a node of level 0, eight nodes of a level one of the next; the last
/// level has one. Node i's children are 8 i to 8 i + 7 as far as there are so many.
struct TreeView {
  Items items;
  double origin[3];  ///< what coordinates in float are counted from; exact in float
  std::uint32_t block_count;
  const std::uint32_t* order;   ///< item at each place; null: the file's own order
  const std::uint32_t* blocks;  ///< block at each place of the tree
  const Node* nodes;            ///< level 0 first
  const std::uint32_t* levels;  ///< first node of each level, and behind the last
  int level_count;
};

/// A convex shape, the hull of some points, and how far around it is searched.
struct Sought {
  const float* points;  ///< x, y, z of each, about the tree's origin
  int count;
  float from[3], run[3];  ///< of a segment: itself; else its middle, no run
  float inverse_run2;     ///< 1 / run^2, 0 without run
  float low[3], high[3];  ///< box of the points
  float across[3];        ///< a direction from an item to the shape in which they may be well apart; 0: none is known
  float across_least;     ///< the least across . p of the points
  float noise2;           ///< square of the rounding of a float's dot product with a unit vector
  float reach2;           ///< square of the distance beyond which nothing is asked for, with its rounding
  /// Measures an item; sets reach2 and across anew.
  void (*measure)(void* state, std::uint32_t item);
  void* state;
};

void search_anywhere(const TreeView&, Sought&);
/// Only where the processor has AVX2; the same operations in the same order.
void search_avx2(const TreeView&, Sought&);

}  // namespace fairlead::sites

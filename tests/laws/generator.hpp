// Sensible layouts from a seed: what a rigger might draw, anywhere, at any bearing, in any size that works.
#pragma once

#include <cstdint>
#include <random>
#include <string>

#include "geometry/layout/layout.hpp"

namespace fairlead::laws {

/// Draws numbers; the same on every machine, which the distributions of <random> are not.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : random_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * 0x1p-53 * static_cast<double>(random_() >> 11);
  }
  int one_of(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }
  bool once_in(int n) { return one_of(n) == 0; }

 private:
  std::mt19937_64 random_;
};

/// What a law asks of its layouts.
struct Wanted {
  int parts = 0;       ///< n of n:1; 0: as the seed has it, 1 to 4
  bool askew = true;   ///< sheaves, unit and blocks a little off the main line's plane, as built
  double reach_m = 0;  ///< how much farther upstream than usual the redirect stands, for long legs
  double line_kg_per_m = 0.038;
  bool mounts = false;    ///< two of three sheaves on anchors hang free or swivel
  bool friction = false;  ///< three of four sheaves rub
};

/// The layout's file. Seeds 0, 1, 2, 3 of every four are 1:1 to 4:1; of the reductions two in three ride on a support
/// line, the others float.
std::string sensible_toml(unsigned seed, const Wanted& = {});

/// The same, read; a diagnostic of the reader throws.
Layout sensible_layout(unsigned seed, const Wanted& = {});

}  // namespace fairlead::laws

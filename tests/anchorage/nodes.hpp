// Nodes that the tests hold, and what must be true of each.
#pragma once

#include <gtest/gtest.h>

#include <random>

#include "geometry/anchorage/node.hpp"

namespace fairlead::anchorage {

inline Held held(const Node& node, Vec3 force_N) {
  const auto solved = hold(node, force_N);
  EXPECT_TRUE(solved.has_value()) << (solved ? "" : solved.error().why);
  return solved ? *solved : Held{std::vector<double>(node.members.size(), std::nan(""))};
}

/// What the members pull at the node and the force on it, where the node has moved to.
inline Vec3 left_over_N(const Node& node, const Held& held, Vec3 force_N, Vec3 moved_m) {
  Vec3 sum = force_N;
  for (std::size_t i = 0; i < node.members.size(); ++i)
    if (held.force_N[i] != 0) sum += held.force_N[i] * unit(node.members[i].to - (node.at + moved_m));
  return sum;
}

class Random {
 public:
  explicit Random(unsigned seed) : bits_(seed) {}
  double between(double low, double high) { return low + (high - low) * static_cast<double>(bits_() >> 11) * 0x1p-53; }
  Vec3 vector(double most) { return {between(-most, most), between(-most, most), between(-most, most)}; }

 private:
  std::mt19937_64 bits_;
};

/// A pole on its foot with as many guys around it, no two alike, its head near (0, 0, 8).
inline Node guyed_pole(Random& random, int guys, double pretension_N) {
  Node node{Point3{0, 0, 8} + random.vector(0.5), {{.to = {}, .pushes = true, .ea_N = random.between(20e6, 90e6)}}};
  for (int i = 0; i < guys; ++i) {
    const double at = 2 * 3.14159 * (i + random.between(-0.2, 0.2)) / guys, far_m = random.between(4, 9);
    node.members.push_back({.to = {far_m * std::cos(at), far_m * std::sin(at), random.between(-0.5, 0.5)},
                            .ea_N = random.between(2e6, 9e6),
                            .pretension_N = pretension_N});
  }
  brace(node);
  return node;
}

}  // namespace fairlead::anchorage

// The name somebody probably meant: how near is near, what wins, and when silence is better.
#include "geometry/quantity/nearest.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace fairlead {
namespace {

std::string guess(std::string_view word, const std::vector<std::string>& known) {
  return nearest(word, known).value_or("nobody");
}

TEST(Nearest, ASlipOfTheFingerIsUnderstood) {
  const std::vector<std::string> keys{"position", "diameter", "pitch_diameter", "axle", "wll"};
  EXPECT_EQ(guess("positon", keys), "position");    // one letter left out
  EXPECT_EQ(guess("posiition", keys), "position");  // one too many
  EXPECT_EQ(guess("diametre", keys), "diameter");   // two neighbours swapped
  EXPECT_EQ(guess("axel", keys), "axle");           // swapped, in a short word
  EXPECT_EQ(guess("pitchdiameter", keys), "pitch_diameter");
  EXPECT_EQ(guess("wlls", keys), "wll");
}

TEST(Nearest, WhatIsFartherThanAThirdOfTheLettersIsNoSlip) {
  EXPECT_EQ(guess("abcdxy", {"abcdef"}), "abcdef");  // two of six
  EXPECT_EQ(guess("abcxyz", {"abcdef"}), "nobody");  // three of six
  EXPECT_EQ(guess("A7", {"A1", "A2"}), "nobody");    // another of its kind, not a misspelling
  EXPECT_EQ(guess("", {"a"}), "nobody");
  EXPECT_EQ(guess("a", {}), "nobody");
}

// Neighbours swapped count once; the same letters moved farther apart count twice.
TEST(Nearest, ASwapOfNeighboursIsOneSlip) {
  EXPECT_EQ(guess("acb", {"abc"}), "abc");
  EXPECT_EQ(guess("cba", {"abc"}), "nobody");
}

TEST(Nearest, TheNearerNameWinsAndOfEquallyNearOnesTheFirst) {
  EXPECT_EQ(guess("anchor1", {"anchor", "anchor2", "anchor1"}), "anchor1");
  EXPECT_EQ(guess("anchor3", {"anchor2", "anchor1"}), "anchor2");
  EXPECT_EQ(guess("anchor3", {"anchor1", "anchor2"}), "anchor1");
}

TEST(Nearest, WhoIsNearIsMutual) {
  for (const auto& [a, b] : {std::pair{"sheave", "sheaf"}, std::pair{"line", "lien"}, std::pair{"abcd", "dcba"}})
    EXPECT_EQ(nearest(a, std::vector<std::string>{b}).has_value(), nearest(b, std::vector<std::string>{a}).has_value());
}

}  // namespace
}  // namespace fairlead

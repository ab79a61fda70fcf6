// Poses are made finer while that brings an open verdict nearer, and no longer.
#include <gtest/gtest.h>

#include <algorithm>

#include "geometry/checks/check.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Finding& of_start_support(const Judged& judged) {
  return *std::find_if(judged.findings.begin(), judged.findings.end(), [&](const Finding& finding) {
    return finding.check->name == std::string_view("anchor-utilisation") &&
           judged.rig.layout.anchors[static_cast<std::size_t>(finding.subject.index)].id.value == "P1";
  });
}

// An arrest governs the start support, between 0.722 of 45 kN as seen and 0.734 at worst: a working load limit between
// the two leaves it open, and finer poses change neither.
TEST(Halving, EndsWhereItBringsNoOpenVerdictNearer) {
  const Judged judged = judge(demo_layout({{"anchor.P1.wll", "'32.75 kN'"}}));
  EXPECT_EQ(of_start_support(judged).verdict, Verdict::undetermined);
  EXPECT_EQ(judged.resolution.length_m, Resolution{}.length_m / 2) << "looked at once more";
}

TEST(Halving, IsNotBegunWhereNothingIsOpen) {
  const Judged judged = judge(demo_layout());
  EXPECT_EQ(of_start_support(judged).verdict, Verdict::pass);
  EXPECT_EQ(judged.resolution.length_m, Resolution{}.length_m);
}

}  // namespace
}  // namespace fairlead

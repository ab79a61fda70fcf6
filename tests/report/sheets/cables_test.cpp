// Cables beside the arrest system are drawn where they hang.
#include <gtest/gtest.h>

#include <cmath>

#include "report/views/scene.hpp"
#include "tests/loads/everything.hpp"

namespace fairlead::views {
namespace {

const CableSeen& cable(const Scene& scene, const std::string& name) {
  for (const CableSeen& seen : scene.cables)
    if (seen.name == name) return seen;
  throw std::runtime_error("not seen: " + name);
}

TEST(Cables, AParallelLineEndsAtItsAnchorAndHangsBelowItsChord) {
  const Rig rig = solve(loads::everything());
  const Scene scene = scene_of(rig);
  const CableSeen& line = cable(scene, "Parallel line M2");
  const Point3 from = rig.layout.anchors[loads::anchor_of(rig, "P1")].position,
               to = rig.layout.anchors[loads::anchor_of(rig, "Q2")].position;
  EXPECT_NEAR(norm(line.curve.back() - to), 0, 1e-9);
  EXPECT_GE(rig.frame.chainage_m(line.curve.front()), scene.from_m);
  for (std::size_t i = 0; i + 1 < line.curve.size(); ++i) {
    const Vec3 done = line.curve[i] - from, whole = to - from;
    const double share = std::hypot(done.x, done.y) / std::hypot(whole.x, whole.y);
    EXPECT_LT(line.curve[i].z, from.z + share * whole.z);
  }
}

TEST(Cables, TheMainLineRunsOnToTheAnchorBehindTheLanding) {
  const Rig rig = solve(loads::everything());
  const Scene scene = scene_of(rig);
  const CableSeen& behind = cable(scene, "Main line to anchor K2");
  EXPECT_NEAR(norm(behind.curve.front() - rig.layout.anchors[loads::anchor_of(rig, "P2")].position.value), 0, 1e-9);
  EXPECT_NEAR(norm(behind.curve.back() - rig.layout.anchors[loads::anchor_of(rig, "K2")].position.value), 0, 1e-9);
  EXPECT_EQ(scene.cables.size(), 2u) << "the one behind the start is beyond the sheet";
}

TEST(Cables, ALayoutWithoutThemShowsNone) { EXPECT_TRUE(scene_of(solve(demo_layout())).cables.empty()); }

}  // namespace
}  // namespace fairlead::views

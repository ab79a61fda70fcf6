#include "geometry/loads/columns.hpp"

#include <gtest/gtest.h>

#include <functional>
#include <limits>
#include <random>

#include "geometry/loads/books.hpp"

namespace fairlead::loads {
namespace {

/// The worst over unevenly spaced poses of a force along x.
Extreme sampled(const std::function<double(double)>& force, const std::vector<double>& travel_m) {
  std::vector<Vec3> column;
  for (const double t : travel_m) column.push_back({force(t), 0, 0});
  return worst_over(column, travel_m, std::vector<bool>(travel_m.size(), true));
}

const std::vector<double> uneven{0, 0.5, 1, 1.25, 1.3, 2, 3};

TEST(BoundBetweenPoses, IsTheGreaterValueOfAStraightCourse) {
  const Extreme e = sampled([](double t) { return 1 + 2 * t; }, uneven);
  EXPECT_EQ(e.value, 7);
  EXPECT_EQ(e.pose, 6);
  EXPECT_NEAR(e.bound, 7, 1e-14);
}

TEST(BoundBetweenPoses, HoldsAKinkAnywhereInAnyStep) {
  for (double at = 0.01; at < 2.999; at += 0.0137) {
    const Extreme e = sampled([&](double t) { return t < at ? 10 + 5 * t : 10 + 5 * at - 9 * (t - at); }, uneven);
    EXPECT_GE(e.bound * (1 + 1e-14), 10 + 5 * at) << "kink at " << at;
  }
}

// The crest of a parabola stands curvature x step^2 / 8 above its two neighbours; allowed is at least twice that.
TEST(BoundBetweenPoses, AllowsTwiceWhatASmoothCourseStrays) {
  const std::vector<double> even{0, 1, 2, 3, 4, 5};
  const Extreme e = sampled([](double t) { return 10 - (t - 2.5) * (t - 2.5); }, even);
  EXPECT_EQ(e.value, 9.75);
  EXPECT_NEAR(e.bound, 9.75 + 4 * 0.25, 1e-12) << "steps beside as long as this: four times";
}

TEST(BoundBetweenPoses, IsUnknownWhereTheReevingKnowsNothingOrAStepStandsAlone) {
  const std::vector<Vec3> column{{1}, {2}, {1}};
  const std::vector<double> travel_m{0, 1, 2};
  EXPECT_TRUE(std::isinf(worst_over(column, travel_m, {true, false, true}).bound));
  EXPECT_TRUE(std::isinf(worst_over({column.data(), 2}, {travel_m.data(), 2}, {true}).bound));
  EXPECT_FALSE(std::isinf(worst_over(column, travel_m, {true, true, false}).bound)) << "there is no third step";
}

TEST(BoundBetweenPoses, OfSomethingUnknownIsUnknown) {
  for (std::size_t i = 0; i < 4; ++i) {
    std::vector<Vec3> column{{1}, {2}, {3}, {1}};
    column[i].y = std::nan("");
    const Extreme e = worst_over(column, std::vector<double>{0, 1, 2, 3}, {true, true, true});
    EXPECT_TRUE(std::isnan(e.bound)) << i;
    EXPECT_TRUE(std::isnan(e.value)) << i;
  }
}

TEST(ForceThroughABlock, OfForcesAlongOneLineIsAllThatPullOneWay) {
  EXPECT_EQ(greatest_group_N({{-100}, {-100}, {200}}), 200);
  EXPECT_EQ(greatest_group_N({{-100}, {300}, {-200}}), 300);
  EXPECT_EQ(greatest_group_N({}), 0);
}

TEST(ForceThroughABlock, IsTheGreatestOfAllGroups) {
  std::mt19937 draw(7);
  std::uniform_real_distribution<double> part(-1000, 1000);
  for (int count = 2; count <= 7; ++count) {
    std::vector<Vec3> forces(static_cast<std::size_t>(count));
    Vec3 rest;
    for (Vec3& f : forces) f = {part(draw), part(draw), part(draw)};
    for (std::size_t i = 1; i < forces.size(); ++i) rest -= forces[i];
    forces[0] = rest;  // in equilibrium
    double most = 0;
    for (unsigned group = 1; group < 1u << count; ++group) {
      Vec3 sum;
      for (std::size_t i = 0; i < forces.size(); ++i)
        if (group >> i & 1) sum += forces[i];
      most = std::max(most, norm(sum));
    }
    EXPECT_NEAR(greatest_group_N(forces), most, 1e-9 * most) << count << " forces, seed 7";
  }
}

}  // namespace
}  // namespace fairlead::loads

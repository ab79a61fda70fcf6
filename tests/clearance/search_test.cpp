// The search alone: lines and boxes that move at random, straight from pose to pose, against many instants between.
#include "geometry/clearance/search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace fairlead::clearance {
namespace {

class Draw {
 public:
  double within(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  Vec3 vector(double size) { return {within(-size, size), within(-size, size), within(-size, size)}; }
  Point3 point(double size) { return Point3{} + vector(size); }
  Box box(double size) {
    const Vec3 x = unit(vector(1)), z = unit(cross(x, Vec3{0.3, -0.5, 0.8}));
    return {point(3), x, cross(z, x), z, {within(0, size), within(0, size), within(0, size)}};
  }
  Post post() { return {point(3), point(3), within(0.01, 0.5)}; }
  /// Its points go their own ways.
  Chain chain(int poses) {
    constexpr int points = 4;
    std::vector<Point3> first, at;
    for (int i = 0; i < points; ++i) first.push_back(point(3));
    for (int pose = 0; pose < poses; ++pose)
      for (Point3& p : first) at.push_back(p = p + vector(0.6));
    Chain chain(points, std::move(at));
    chain.radius_m = within(0, 0.05);
    chain.stray_m.assign(static_cast<std::size_t>(poses - 1), 0);
    return chain;
  }
  MovingBox moving_box(int poses) {
    Box now = box(1);
    std::vector<Box> at;
    for (int pose = 0; pose < poses; ++pose) {
      now.centre = now.centre + vector(0.6);
      at.push_back(now);
    }
    MovingBox moving(std::move(at));
    moving.stray_m.assign(static_cast<std::size_t>(poses - 1), 0);
    return moving;
  }

  /// Corners go with a place, and each its own way besides.
  MovingHulls hulls(int poses) {
    constexpr int pieces = 3, each = 5;
    std::vector<Vec3> first, corners;
    for (int i = 0; i < pieces * each; ++i) first.push_back(vector(1));
    std::vector<Point3> at{point(3)};
    for (int pose = 0; pose < poses; ++pose) {
      if (pose > 0) at.push_back(at.back() + vector(0.4));
      for (Vec3& corner : first) corners.push_back(corner += vector(0.2));
    }
    MovingHulls hulls(pieces, each, std::move(corners), std::move(at));
    hulls.radius_m = within(0, 0.05);
    hulls.stray_m.assign(static_cast<std::size_t>(poses - 1), 0);
    return hulls;
  }

 private:
  std::mt19937_64 random_{20261125};
};

/// Many instants of every step, each alone.
double least_of_instants(const Mover& a, const Mover& b, int poses) {
  constexpr int instants = 400;
  double least = std::numeric_limits<double>::infinity();
  for (int pose = 0; pose + 1 < poses; ++pose)
    for (int k = 0; k < instants; ++k) least = std::min(least, gap_at(a, b, pose, double(k) / instants).distance_m);
  return std::min(least, gap_at(a, b, poses - 1, 0).distance_m);
}

Least search(const Mover& a, const Mover& b, int poses, double resolution_m) {
  const Meet meet{&a, &b, poses, 0};
  return clearance::search({&meet, 1}, resolution_m);
}

void expect_held(const Mover& a, const Mover& b, int poses, double resolution_m, const char* what) {
  const Least least = search(a, b, poses, resolution_m);
  const double seen = least_of_instants(a, b, poses);
  constexpr double rounding = 1e-12;
  // An instant is at most 1/800 of a step of about 2 m from one that was looked at.
  constexpr double step_m = 2 * 1.1 / 800;
  EXPECT_LE(least.bound_m, seen + rounding) << what;
  EXPECT_GE(least.value_m, seen - step_m) << what;
  EXPECT_LE(least.bound_m, least.value_m + rounding) << what;
  EXPECT_GE(least.bound_m, least.value_m - std::max(1., least.value_m) * resolution_m - rounding) << what;
}

TEST(Search, NoInstantIsNearerThanTheBoundAndTheBoundIsWithinTheResolution) {
  Draw draw;
  for (int i = 0; i < 12; ++i)
    for (const int poses : {2, 3, 19})
      for (const double resolution_m : {5e-3, 1e-4}) {
        const Mover line = draw.chain(poses), other = draw.chain(poses), box = draw.moving_box(poses),
                    another = draw.moving_box(poses);
        expect_held(line, other, poses, resolution_m, "two lines");
        expect_held(line, box, poses, resolution_m, "a line and a box");
        expect_held(box, line, poses, resolution_m, "a box and a line");
        expect_held(box, another, poses, resolution_m, "two boxes");
        const Shape standing[] = {draw.box(1), draw.post(), Plane{draw.point(3), unit(draw.vector(1))}};
        for (const Shape& shape : standing) {
          expect_held(line, Fixed(shape), poses, resolution_m, "a line and what stands");
          expect_held(box, Fixed(shape), poses, resolution_m, "a box and what stands");
        }
      }
}

TEST(Search, WhatThePosesLeaveOpenComesOffTheBoundAndNotOffAPosesValue) {
  Draw draw;
  Chain line = draw.chain(2);
  const Fixed far(Box{.centre = {30, 0, 0}, .half_m = {1, 1, 1}});
  const Least still = search(line, far, 2, 1e-3);
  line.stray_m[0] = 0.5;
  const Least open = search(line, far, 2, 1e-3);
  EXPECT_NEAR(open.bound_m, still.bound_m - 0.5, 30e-3) << "30 m off the search leaves 30 mm";
  EXPECT_LE(open.value_m, still.value_m + 0.5);
  EXPECT_LE(open.value_m, gap_at(line, far, 0, 0).distance_m);
}

TEST(Search, OfSeveralPassagesTheNearestCountsInWhateverOrderTheyAreToldOf) {
  Draw draw;
  constexpr double resolution_m = 1e-3;
  for (int i = 0; i < 10; ++i) {
    const Fixed post(draw.post());
    std::vector<MovingHulls> riders;
    for (int rider = 0; rider < 4; ++rider) riders.push_back(draw.hulls(18));
    const Mover standing = post;
    const std::vector<Mover> moving(riders.begin(), riders.end());
    std::vector<Meet> meets;
    double nearest_m = std::numeric_limits<double>::infinity();
    for (const Mover& one : moving) {
      meets.push_back({&one, &standing, 18, static_cast<int>(meets.size())});
      nearest_m = std::min(nearest_m, least_of_instants(one, standing, 18));
    }
    for (int order = 0; order < 4; ++order) {
      const Least least = clearance::search(meets, resolution_m);
      // Of a hull and what is round, hull_precision_round of their size.
      constexpr double rounding = 1e-8, step_m = 2 * 1.1 / 800;
      EXPECT_LE(least.bound_m, nearest_m + rounding) << order;
      EXPECT_GE(least.value_m, nearest_m - step_m) << order;
      EXPECT_GE(least.bound_m, least.value_m - std::max(1., least.value_m) * resolution_m - rounding) << order;
      ASSERT_GE(least.sweep, 0);
      const Meet& where =
          *std::find_if(meets.begin(), meets.end(), [&](const Meet& m) { return m.sweep == least.sweep; });
      EXPECT_NEAR(gap_at(*where.a, *where.b, least.pose, least.share).distance_m, least.value_m, rounding);
      std::rotate(meets.begin(), meets.begin() + 1, meets.end());
    }
  }
}

TEST(Search, OnePoseIsItsOwnBound) {
  Draw draw;
  const Chain line = draw.chain(1);
  const Fixed far(Box{.centre = {30, 0, 0}, .half_m = {1, 1, 1}});
  const Least least = search(line, far, 1, 1e-3);
  EXPECT_EQ(least.value_m, least.bound_m);
  EXPECT_EQ(least.value_m, gap_at(line, far, 0, 0).distance_m);
}

}  // namespace
}  // namespace fairlead::clearance

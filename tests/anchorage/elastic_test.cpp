#include <algorithm>
#include <numbers>

#include "tests/anchorage/nodes.hpp"

namespace fairlead::anchorage {
namespace {

/// A pole of 8 m and four guys to 6 m from its foot: 10 m long each, stiffness all alike.
Node square_pole(double pretension_N = 0) {
  Node node{{0, 0, 8}, {{.to = {0, 0, 0}, .pushes = true, .ea_N = 40e6}}};
  for (const Point3 to : {Point3{6, 0, 0}, {0, 6, 0}, {-6, 0, 0}, {0, -6, 0}})
    node.members.push_back({.to = to, .ea_N = 5e6, .pretension_N = pretension_N});
  brace(node);
  return node;
}

// Source [own]: the 3-4-5 triangle; the back guy alone ties the pole against a level pull.
TEST(Elastic, OneGuyTakesALevelPullInItsPlaneAndThePolePushes) {
  const Held guys = held(square_pole(), {900, 0, 0});
  EXPECT_NEAR(guys.force_N[3], 900 / 0.6, 1e-8);
  EXPECT_NEAR(guys.force_N[0], -1500 * 0.8, 1e-8);
  EXPECT_EQ(guys.slack, (std::vector<int>{0 + 1, 2, 4}));
  EXPECT_FALSE(guys.moved_m) << "nothing keeps it from leaning aside until a side guy is taut";
}

// Source [own]: by hand. While all guys stay taut a level pull F moves the head u = F / (2 EA / L 0.36); the back guy
// gains and the front guy loses F / (2 x 0.6), and the pole keeps the pretensions' 4 x 0.8 N0.
TEST(Elastic, PretensionedGuysShareAPullUntilTheFrontOneIsSlack) {
  const Held guys = held(square_pole(1000), {900, 0, 0});
  EXPECT_NEAR(guys.force_N[3], 1000 + 750, 1e-8);
  EXPECT_NEAR(guys.force_N[1], 1000 - 750, 1e-8);
  EXPECT_NEAR(guys.force_N[2], 1000, 1e-8);
  EXPECT_NEAR(guys.force_N[0], -3200, 1e-8);
  EXPECT_TRUE(guys.slack.empty());
  ASSERT_TRUE(guys.moved_m);
  EXPECT_NEAR(guys.moved_m->x, 900 / (2 * 5e5 * 0.36), 1e-12);
  EXPECT_NEAR(guys.moved_m->z, 0, 1e-15);
}

TEST(Elastic, BeyondItThePullIsTheBackGuysAloneAndTheSlackOneIsNamed) {
  const Held guys = held(square_pole(1000), {3000, 0, 0});
  EXPECT_NEAR(guys.force_N[3] * 0.6, 3000, 1e-8);
  EXPECT_EQ(guys.slack, std::vector<int>{1});
  EXPECT_TRUE(guys.moved_m);
}

TEST(Elastic, ForcesOnGuyedPolesOfAnyShapeAreInEquilibrium) {
  Random random(1);
  for (int i = 0; i < 400; ++i) {
    const double pretension_N = i % 2 == 0 ? 0 : 2000;
    const Node node = guyed_pole(random, 3 + i % 4, pretension_N);
    const Vec3 force_N = random.vector(5000) - Vec3{0, 0, 3000};
    const Held guys = held(node, force_N);
    const double greatest_N = 2000 + norm(force_N);
    EXPECT_LE(norm(left_over_N(node, guys, force_N, {})), 1e-12 * 10 * greatest_N) << "case " << i;
    for (std::size_t m = 1; m < node.members.size(); ++m) EXPECT_GE(guys.force_N[m], 0) << "case " << i;
  }
}

/// Energy of the members less the work of the force, at a movement of the node.
double energy(const Node& node, Vec3 force_N, Vec3 moved_m) {
  double sum = -dot(force_N, moved_m);
  for (const Member& member : node.members) {
    const double rate = member.ea_N / norm(member.to - node.at);
    const double pull_N = member.pretension_N - rate * dot(unit(member.to - node.at), moved_m);
    if (member.pushes || pull_N > 0) sum += pull_N * pull_N / (2 * rate);
  }
  return sum;
}

// Source [own]: another way to the same answer: coordinate descent with a golden shrinking step on the potential energy
// of the node's movement. It stops where steps of 1e-11 m no longer help: forces to EA / L x 1e-10 m, about 1e-3 N.
TEST(Elastic, MovementIsTheLeastOfThePotentialEnergy) {
  Random random(7);
  for (int i = 0; i < 20; ++i) {
    Node node = guyed_pole(random, 4, 1500);
    const Vec3 force_N = random.vector(2500);
    const Held guys = held(node, force_N), at_rest = held(node, {});
    if (!guys.moved_m) continue;
    const auto least = [&](Vec3 pull_N) {
      Vec3 at;
      double now = energy(node, pull_N, at);
      for (double step_m = 0.02; step_m > 1e-11;) {
        bool better = false;
        for (const Vec3 way : {Vec3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 0}, {1, -1, 0}, {1, 0, 1}, {1, 0, -1}})
          for (const double sign : {1.0, -1.0}) {
            const Vec3 tried = at + sign * step_m * way;
            if (const double then = energy(node, pull_N, tried); then < now) now = then, at = tried, better = true;
          }
        if (!better) step_m *= 0.6;
      }
      return at;
    };
    const Vec3 moved = least(force_N) - least({});
    EXPECT_NEAR(moved.x, guys.moved_m->x, 2e-7) << "case " << i;
    EXPECT_NEAR(moved.y, guys.moved_m->y, 2e-7) << "case " << i;
    EXPECT_NEAR(moved.z, guys.moved_m->z, 2e-7) << "case " << i;
    EXPECT_EQ(at_rest.moved_m, (Vec3{}));
  }
}

TEST(Elastic, TheOrderOfTheMembersChangesNothing) {
  Random random(3);
  for (int i = 0; i < 50; ++i) {
    const Node node = guyed_pole(random, 5, i % 2 * 900.0);
    Node turned = node;
    std::rotate(turned.members.begin(), turned.members.begin() + 2, turned.members.end());
    const Vec3 force_N = random.vector(3000);
    const Held one = held(node, force_N), other = held(turned, force_N);
    for (std::size_t m = 0; m < node.members.size(); ++m)
      EXPECT_NEAR(one.force_N[(m + 2) % node.members.size()], other.force_N[m], 1e-8) << "case " << i;
  }
}

TEST(Elastic, AMirroredNodeHasTheMirroredForces) {
  Random random(4);
  const auto mirrored = [](auto v) { return decltype(v){v.x, -v.y, v.z}; };
  for (int i = 0; i < 50; ++i) {
    const Node node = guyed_pole(random, 4, 700);
    Node mirror{mirrored(node.at), node.members};
    for (Member& member : mirror.members) member.to = mirrored(member.to);
    const Vec3 force_N = random.vector(3000);
    const Held one = held(node, force_N), other = held(mirror, mirrored(force_N));
    for (std::size_t m = 0; m < node.members.size(); ++m) EXPECT_NEAR(one.force_N[m], other.force_N[m], 1e-8);
    EXPECT_EQ(one.slack, other.slack);
  }
}

TEST(Elastic, TwiceThePullAndThePretensionIsTwiceTheForce) {
  Random random(5);
  const Node node = guyed_pole(random, 4, 800), twice = [&] {
    Node made = node;
    for (Member& member : made.members) member.pretension_N *= 2;
    return made;
  }();
  const Vec3 force_N = random.vector(4000);
  const Held one = held(node, force_N), two = held(twice, 2 * force_N);
  for (std::size_t m = 0; m < node.members.size(); ++m) EXPECT_NEAR(2 * one.force_N[m], two.force_N[m], 1e-8);
}

// Source [own]: three equal legs at 60 degrees to the level: load / (3 sin 60). Statically determinate: no stiffness
// enters.
TEST(Elastic, ThreeLegsShareALoadWithoutAStiffness) {
  Node node{{0, 0, 0}, {}};
  for (const double at : {0.0, 120.0, 240.0}) {
    const double rad = at * std::numbers::pi / 180;
    node.members.push_back({.to = {std::cos(rad), std::sin(rad), std::sqrt(3)}});
  }
  const Held legs = held(node, {0, 0, -1000});
  for (const double leg_N : legs.force_N) EXPECT_NEAR(leg_N, 1000 / (3 * std::sin(std::numbers::pi / 3)), 1e-9);
  EXPECT_FALSE(legs.moved_m) << "no stiffness is known";
}

TEST(Elastic, WhatSlingsCannotPullAgainstIsSaid) {
  Node node{{0, 0, 0}, {{.to = {1, 0, 1}}, {.to = {-1, 1, 1}}, {.to = {-1, -1, 1}}}};
  const auto up = hold(node, {0, 0, 1000});
  ASSERT_FALSE(up);
  EXPECT_EQ(up.error().why, "no set of its members holds a pull of 1.000 kN along (0.000, 0.000, 1.000)");
  node.members[1].to = {-1, 0, 2};
  node.members[2].to = {0, 0, 2};
  const auto flat = hold(node, {0, 0, -1000});
  ASSERT_FALSE(flat);
  EXPECT_EQ(flat.error().why, "its members lie in one plane and hold nothing across it");
}

TEST(Elastic, GuysThatAreLeftOnOneSideHoldNoPullTowardThem) {
  Node node = square_pole();
  node.members.erase(node.members.begin() + 3);  // the back guy
  EXPECT_FALSE(hold(node, {900, 0, 0}));
  EXPECT_TRUE(hold(node, {-900, 0, 0}));
}

}  // namespace
}  // namespace fairlead::anchorage

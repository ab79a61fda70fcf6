// Whatever lies between two poses of a rig whose redirect swivels or hangs free stays within the bounds.
#include "tests/reeving/gaps.hpp"

namespace fairlead::reeving {
namespace {

/// A redirect of the worked rig, or of a 2:1, on a mount: its point 0.1 to 0.6 m from the centre, its weight off it.
Drawn draw(std::mt19937_64& random, Joint joint) {
  const bool reduced = random() % 3 == 0;
  Drawn d{reduced ? reduction({.parts = 2}) : worked_rig(), {}, {}};
  Inputs& in = d.in;
  Sheave& redirect = in.sheaves[0];
  redirect.centre =
      redirect.centre + Vec3{uniform(random, -2, 0.3), uniform(random, -0.1, 0.1), uniform(random, -0.3, 0.5)};
  redirect.radius_m *= uniform(random, 0.6, 1.4);
  redirect.axle = unit({uniform(random, -0.04, 0.04), 1, uniform(random, -0.04, 0.04)});
  redirect.body = static_cast<Body>(in.blocks.size());
  const auto off = [&](double most) {
    return Vec3{uniform(random, -most, most), 0.3 * uniform(random, -most, most), 0};
  };
  Block mount{.drawn = redirect.centre + off(0.1) + Vec3{-uniform(random, 0.1, 0.6), 0, uniform(random, 0, 0.2)},
              .centre_of_mass = redirect.centre + off(0.05),
              .weight_N = uniform(random, 5, 60),
              .joint = joint};
  if (joint == Joint::hinge)
    mount.hinge_axis = random() % 2 == 0 ? unit({uniform(random, -0.2, 0.2), uniform(random, -0.2, 0.2), 1})
                                         : unit({uniform(random, -0.2, 0.2), 1, uniform(random, -0.2, 0.2)});
  in.blocks.push_back(mount);
  return settled(random, std::move(d));
}

Held hold_mounted(Joint joint, int draws, unsigned seed, double widest) {
  return hold([=](std::mt19937_64& random) { return draw(random, joint); }, draws, seed, widest);
}

// At rest tension a sheave on a link swings by its own size while the trolley runs its first half metre: little is
// proven of such gaps, and a sweep halves them.
TEST(MountsGaps, NothingOfARedirectThatHangsFreeLeavesItsBounds) {
  hold_mounted(Joint::ball, 10000, 6, -0.3).expect_near();
  hold_mounted(Joint::ball, 10000, 8, -1.5).expect_mostly_proven();
}

TEST(MountsGaps, NothingOfARedirectThatSwivelsLeavesItsBounds) {
  const Held held = hold_mounted(Joint::hinge, 10000, 7, -0.3);
  held.expect_near();
  held.expect_mostly_proven();
}

}  // namespace
}  // namespace fairlead::reeving

// Rigs as they are hung, their redirects on swivels and links and their sheaves rubbing, under changes that may not
// matter, or matter in a known way: through every stage, and between the poses of every sweep.
#include <gtest/gtest.h>

#include "tests/laws/generator.hpp"
#include "tests/laws/moved.hpp"
#include "tests/laws/same.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

constexpr Wanted as_hung{.mounts = true, .friction = true};

// A sheave of 1 kg on a line at 45 N is held against turning by 10 N m or more: as sure as what as_solved tells of.
template <class Change>
void hold(const Change& change, const Telling& telling, double force_factor) {
  int mounted = 0, rubbing = 0;
  for (const unsigned seed : seeds(24)) {
    SCOPED_TRACE(seed);
    const Layout layout = sensible_layout(seed, as_hung);
    const Rig rig = solve(layout, {}, coarse), other = solve(change(layout), {}, coarse);
    const Telling first{.riders_in_side_wind = telling.riders_in_side_wind};
    expect_same(numbers_of(rig, first), numbers_of(other, telling), force_factor, as_solved);
    mounted += rig.bodies.size() > rig.layout.blocks.size();
    for (const reeving::SweepInputs& sweep : rig.reeving.inputs->sweeps)
      rubbing += sweep.friction != reeving::Friction::none;
  }
  EXPECT_GT(mounted, 0);
  EXPECT_GT(rubbing, 0);
}

TEST(HungLaws, ARigSeenInTheMirrorIsTheSameRigWithLeftAndRightExchanged) {
  hold([](Layout l) { return moved(std::move(l), {.mirrors = true}); }, {.mirrored = true}, 1);
}

TEST(HungLaws, ARigTurnedOnItsSiteIsTheSameRig) {
  hold([](Layout l) { return moved(std::move(l), {.turn_rad = 1.1, .shift = {30, -70, 80}}); }, {}, 1);
}

TEST(HungLaws, ALineWrittenFromItsOtherEndIsTheSameLine) { hold(reversed, {}, 1); }

TEST(HungLaws, TwiceTheWeightsTensionsAndStiffnessesAreTwiceTheForcesAndMoveNothing) {
  hold(doubled, {.riders_in_side_wind = false}, 2);
}

TEST(HungLaws, FrictionOfOneIsNoFrictionToTheLastBit) {
  int sheaves = 0;
  for (const unsigned seed : seeds(12)) {
    SCOPED_TRACE(seed);
    Layout with = sensible_layout(seed, as_hung), without = with;
    for (Sheave& s : with.sheaves)
      if (s.friction) s.friction->value = 1, ++sheaves;
    for (Sheave& s : without.sheaves) s.friction.reset(), s.friction_wrap_rad.reset();
    const auto a = numbers_of(solve(with, {}, coarse)), b = numbers_of(solve(without, {}, coarse));
    ASSERT_FALSE(a.empty());
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
      ASSERT_EQ(a[i].what, b[i].what);
      EXPECT_EQ(a[i].value, b[i].value) << a[i].what;
      EXPECT_EQ(a[i].least, b[i].least) << a[i].what;
    }
  }
  EXPECT_GT(sheaves, 0);
}

}  // namespace
}  // namespace fairlead::laws

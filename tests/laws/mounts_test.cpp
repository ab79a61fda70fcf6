// Sheaves on mounts under changes that may not matter, or matter in a known way: through every stage.
#include <gtest/gtest.h>

#include "tests/laws/moved.hpp"
#include "tests/laws/same.hpp"
#include "tests/mounted_layouts.hpp"

namespace fairlead::laws {
namespace {

/// Without an arrest, whose integration takes other steps where the joules are twice as many.
Layout at_rest(Layout layout) {
  layout.riders.rolling_resistance.reset();
  return layout;
}

// A sheave of 2 kg on a line at 45 N is held against turning by some 10 N m: it is as sure as what as_solved tells of.
class MountLaws : public ::testing::TestWithParam<Layout (*)()> {
 protected:
  void hold(const Layout& other, const Telling& telling) const { hold(GetParam()(), other, telling, 1); }
  void hold(const Layout& one, const Layout& other, const Telling& telling, double force_factor) const {
    const Telling first{.riders_in_side_wind = telling.riders_in_side_wind};
    expect_same(numbers_of(solve(one, {}, coarse), first), numbers_of(solve(other, {}, coarse), telling), force_factor,
                as_solved);
  }
};

TEST_P(MountLaws, SeenInTheMirrorLeftAndRightAreExchangedAndNothingElse) {
  hold(moved(GetParam()(), {.mirrors = true}), {.mirrored = true});
}

TEST_P(MountLaws, TurnedOnItsSiteTheRigIsTheSame) {
  hold(moved(GetParam()(), {.turn_rad = 1.1, .shift = {30, -70, 80}}), {});
}

TEST_P(MountLaws, ALineWrittenFromItsOtherEndIsTheSameLine) { hold(reversed(GetParam()()), {}); }

TEST_P(MountLaws, TwiceTheWeightsTensionsAndStiffnessesAreTwiceTheForcesAndMoveNothing) {
  const Layout rig = at_rest(GetParam()());
  hold(rig, doubled(rig), {.riders_in_side_wind = false}, 2);
}

INSTANTIATE_TEST_SUITE_P(Redirects, MountLaws,
                         ::testing::Values(free_redirect, free_redirect_reduced, swivelling_redirect));

}  // namespace
}  // namespace fairlead::laws

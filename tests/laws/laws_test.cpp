// What may not change a rig, and what changes it in a known way: over many layouts, through every stage.
#include <gtest/gtest.h>

#include "tests/laws/generator.hpp"
#include "tests/laws/moved.hpp"
#include "tests/laws/same.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

// Half an ulp of 5e5 m is 3e-11 m. A block may float so much the farther by every one of ten places; a support line of
// 5 MN is pulled by it with 1e-5 N over its 15 m.
constexpr Tolerance far_away{1e-8, 2e-5};

class Laws : public ::testing::Test {
 protected:
  /// Holds the rig against what becomes of it when its layout is changed.
  template <class Change>
  void hold(const Change& change, const Telling& telling, double force_factor, Tolerance tolerance) {
    for (const unsigned seed : seeds(40)) {
      SCOPED_TRACE(seed);
      const Layout layout = sensible_layout(seed);
      const Rig rig = solve(layout, {}, coarse), other = solve(change(layout), {}, coarse);
      const Telling first{.riders_in_side_wind = telling.riders_in_side_wind};
      expect_same(numbers_of(rig, first), numbers_of(other, telling), force_factor, tolerance);
    }
  }
};

TEST_F(Laws, ARigSeenInTheMirrorIsTheSameRigWithLeftAndRightExchanged) {
  hold([](Layout l) { return moved(std::move(l), {.mirrors = true}); }, {.mirrored = true}, 1, as_solved);
}

TEST_F(Laws, ARigTurnedOnItsSiteIsTheSameRig) {
  hold([](Layout l) { return moved(std::move(l), {.turn_rad = 1.1, .shift = {30, -70, 80}}); }, {}, 1, as_solved);
}

TEST_F(Laws, ARigFiveHundredKilometresAwayIsTheSameRig) {
  hold([](Layout l) { return moved(std::move(l), {.shift = {500e3, -400e3, 500}}); }, {}, 1, far_away);
}

TEST_F(Laws, ALineWrittenFromItsOtherEndIsTheSameLine) { hold(reversed, {}, 1, as_solved); }

TEST_F(Laws, TwiceTheWeightsTensionsAndStiffnessesAreTwiceTheForcesAndMoveNothing) {
  hold(doubled, {.riders_in_side_wind = false}, 2, as_solved);
}

}  // namespace
}  // namespace fairlead::laws

// What may not change a rig, and what changes it in a known way: over many layouts, through every stage.
#include <gtest/gtest.h>

#include "tests/laws/generator.hpp"
#include "tests/laws/moved.hpp"
#include "tests/laws/numbers.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

/// Coarse: nothing here depends on how fine the poses are.
constexpr Resolution coarse{0.1, 5e-3};

struct Tolerance {
  double length_m, force_N;
};
// Poses are solved to 1e-11 m and 1e-11 of their forces: 2e-7 N of the main line's 20 kN, twice. The softest things are
// blocks floating on legs of 15 m at 40 N, 3 N/m across them: 1e-11 of their 500 N moves them by 2e-9 m, twice.
constexpr Tolerance as_solved{5e-9, 5e-7};
// Half an ulp of 5e5 m is 3e-11 m. A block may float so much the farther by every one of ten places; a support line of
// 5 MN is pulled by it with 1e-5 N over its 15 m.
constexpr Tolerance far_away{1e-8, 2e-5};

void expect_same(const std::vector<Number>& a, const std::vector<Number>& b, double force_factor, Tolerance tolerance) {
  ASSERT_FALSE(a.empty()) << "the layout is not solved";
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    ASSERT_EQ(a[i].what, b[i].what);
    const bool force = a[i].kind == Kind::force || a[i].kind == Kind::couple;
    const double factor = force ? force_factor : 1, most = force ? tolerance.force_N : tolerance.length_m;
    if (a[i].value == b[i].value && factor == 1) continue;  // also where both are infinite
    // What lies between the one's least and value lies between the other's.
    EXPECT_LE(factor * a[i].least, b[i].value + most) << a[i].what << ", number " << i;
    EXPECT_LE(b[i].least, factor * a[i].value + most) << a[i].what << ", number " << i;
  }
}

class Laws : public ::testing::Test {
 protected:
  /// Holds the rig against what becomes of it when its layout is changed.
  template <class Change>
  void hold(const Change& change, const Telling& telling, double force_factor, Tolerance tolerance) {
    for (const unsigned seed : seeds(40)) {
      SCOPED_TRACE(seed);
      const Layout layout = sensible_layout(seed);
      const Rig rig = solve(layout, {}, coarse), other = solve(change(layout), {}, coarse);
      expect_same(numbers_of(rig), numbers_of(other, telling), force_factor, tolerance);
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

TEST_F(Laws, TwiceTheWeightsTensionsAndStiffnessesAreTwiceTheForcesAndMoveNothing) { hold(doubled, {}, 2, as_solved); }

}  // namespace
}  // namespace fairlead::laws

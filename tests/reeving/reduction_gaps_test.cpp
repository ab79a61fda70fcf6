// Whatever lies between two poses of a reduction stays within the bounds, and no point strays from straight
// interpolation by more than it may.
#include "tests/reeving/gaps.hpp"

namespace fairlead::reeving {
namespace {

/// A reduction moved about: straight or askew, carried or floating, light and heavy lines, in still air or side wind.
Drawn draw(std::mt19937_64& random, int parts, bool carried) {
  const ReductionParts given{.parts = parts,
                             .carried = carried,
                             .weight_N = uniform(random, 20, 120),
                             .line_kg_per_m = uniform(random, 0, 1) < 0.2 ? 0 : uniform(random, 0.03, 0.15)};
  Drawn d{uniform(random, 0, 1) < 0.4 ? reduction(given) : skew_reduction(given), {}, {}};
  Inputs& in = d.in;
  in.sheaves[0].centre =
      in.sheaves[0].centre + Vec3{uniform(random, -2, 0.3), uniform(random, -0.1, 0.1), uniform(random, -0.3, 0.5)};
  for (Sheave& s : in.sheaves) {
    if (s.radius_m == 0) continue;
    s.radius_m *= uniform(random, 0.6, 1.4);
    s.axle = unit(s.axle + Vec3{uniform(random, -0.04, 0.04), 0, uniform(random, -0.04, 0.04)});
  }
  // A floating block that hangs aslant turns as its lines tighten.
  if (!carried)
    in.blocks[0].centre_of_mass =
        in.blocks[0].drawn + Vec3{uniform(random, -0.3, 0.3), 0.05 * uniform(random, -1, 1), uniform(random, -0.4, 0)};
  return settled(random, std::move(d));
}

void hold_reduction(int parts, bool carried, int draws, unsigned seed) {
  const Held held = hold([=](std::mt19937_64& random) { return draw(random, parts, carried); }, draws, seed);
  held.expect_mostly_proven();
  held.expect_near();
}

TEST(ReductionGaps, NothingOfATwoToOneOnASupportLineLeavesItsBounds) { hold_reduction(2, true, 8000, 1); }
TEST(ReductionGaps, NothingOfAFloatingTwoToOneLeavesItsBounds) { hold_reduction(2, false, 6000, 2); }
TEST(ReductionGaps, NothingOfAThreeToOneLeavesItsBounds) { hold_reduction(3, true, 4000, 3); }
TEST(ReductionGaps, NothingOfAFloatingThreeToOneLeavesItsBounds) { hold_reduction(3, false, 2000, 4); }
TEST(ReductionGaps, NothingOfAFourToOneLeavesItsBounds) { hold_reduction(4, true, 2000, 5); }

}  // namespace
}  // namespace fairlead::reeving

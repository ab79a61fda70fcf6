// Rider and resting trolley between push-off and redirect on every shipped layout's main lines, solved densely between
// the poses.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/clearance/span.hpp"
#include "geometry/rig/rig.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead {
namespace {

TEST(WholeSpan, OnNoShippedLineAPlaceBetweenLeavesWhatIsProven) {
  for (const std::string& file : shipped_layouts()) {
    const Rig rig = solve(shipped_layout(file));
    ASSERT_TRUE(rig.reeving.inputs && rig.reeving.solved() && rig.clearance.inputs) << file;
    const reeving::Inputs& in = *rig.reeving.inputs;
    clearance::Inputs seen = *rig.clearance.inputs;
    if (!(seen.push_off_m > 0)) seen.push_off_m = 2;
    for (std::size_t s = 0; s < in.sweeps.size(); ++s) {
      const reeving::SweepInputs& given = in.sweeps[s];
      if (given.running != reeving::Running::at_rest || !(given.rider_weight_N > 0) || !(given.wind_Pa == Vec3{}))
        continue;
      const auto whole = clearance::whole_span(seen, in, rig.reeving.solved()->sweeps[s], given);
      ASSERT_TRUE(whole) << whole.error().why;
      ASSERT_GT(whole->added, 50) << file;
      double proven_m = 0, bent_m = 0;
      for (std::size_t i = 0; i < static_cast<std::size_t>(whole->added); ++i) {
        const reeving::Pose &a = whole->sweep.poses[i], &b = whole->sweep.poses[i + 1];
        const reeving::Stray& stray = whole->sweep.strays[i];
        const auto z = [&](Point3 p) { return dot(p - in.origin, in.up); };
        double rider_m = 0, trolley_m = 0;
        constexpr int places = 200;
        std::optional<mainline::Shape> near;
        for (int n = 1; n < places; ++n) {
          const double t = double(n) / places;
          const mainline::Load loads[] = {
              {in.rest_m + a.travel_m + t * (b.travel_m - a.travel_m), given.rider_weight_N},
              {in.rest_m, given.trolley_weight_N - dot(a.pull_on_trolley_N, in.up)}};
          near = *mainline::hang_rolling(given.state.cable, loads, near ? &*near : nullptr);
          rider_m = std::max(rider_m, std::abs(near->wheels[0].z_m - (1 - t) * z(a.rider) - t * z(b.rider)));
          trolley_m = std::max(trolley_m, std::abs(near->wheels[1].z_m - (1 - t) * z(a.trolley) - t * z(b.trolley)));
        }
        ASSERT_LE(rider_m, stray.rider_m) << file << ", sweep " << s << ", travel " << a.travel_m;
        ASSERT_LE(trolley_m, stray.trolley_m) << file << ", sweep " << s << ", travel " << a.travel_m;
        proven_m += stray.rider_m;
        bent_m += rider_m;
      }
      EXPECT_LT(proven_m, 1.2 * bent_m) << file << ": it is near the true bend";
    }
  }
}

}  // namespace
}  // namespace fairlead

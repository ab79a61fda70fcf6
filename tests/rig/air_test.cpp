// The air at the site.
#include "geometry/rig/air.hpp"

#include <gtest/gtest.h>

namespace fairlead {
namespace {

// Source ISA (read): ISO 2533 at geopotential heights; half the last printed digit.
TEST(Air, HasTheStandardAtmospheresDensity) {
  EXPECT_NEAR(air_density_kg_per_m3(0, 288.15), 1.225000, 5e-7);
  EXPECT_NEAR(air_density_kg_per_m3(1000, 281.65), 1.111643, 5e-7);
  EXPECT_NEAR(air_density_kg_per_m3(2000, 275.15), 1.006490, 5e-7);
}

TEST(Air, IsDenserWhenColderAndLower) {
  EXPECT_GT(air_density_kg_per_m3(300, 258), air_density_kg_per_m3(300, 308));
  EXPECT_GT(air_density_kg_per_m3(0, 288), air_density_kg_per_m3(300, 288));
}

// Source BLOW (own computation): 8 mm line, 15 m/s, 1.225 kg/m3, drag coefficient 1.2 (common practice, no source):
// 1.323 N/m; over 12 m at 25 N the parabola hangs 0.95 m.
TEST(Air, BlowsALineSideways) {
  const double load_N_per_m = 0.008 * wind_on_line_Pa(1.225, 15);
  EXPECT_NEAR(load_N_per_m, 1.323, 5e-4);
  EXPECT_NEAR(load_N_per_m * 12 * 12 / (8 * 25), 0.95, 5e-3);
}

}  // namespace
}  // namespace fairlead

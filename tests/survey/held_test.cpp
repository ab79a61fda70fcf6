// Readings from marks that are held: a textbook's figure, and what shows that one of them stands elsewhere.
#include <gtest/gtest.h>

#include <cmath>

#include "geometry/survey/network.hpp"

namespace fairlead {
namespace {

using Kind = NetworkReading::Kind;

Adjustment adjusted(const Network& network) {
  auto out = adjust(network);
  if (!out) throw std::runtime_error(out.error().why);
  return std::move(*out);
}

// GHILANI10 as printed, and now as it is meant: the marks have no error at all.
TEST(Network, ATextbooksTrilaterationFromMarksThatAreHeldComesOutAsPrinted) {
  Network network;
  for (const Point3 p : {Point3{865.40, 4527.15, 0}, Point3{2432.55, 2047.25, 0}, Point3{2865.22, 27.15, 0}})
    network.points.push_back({p, std::nullopt, true});
  network.points.push_back({{6865, 3900, 0}, std::nullopt});
  const double read[] = {6049.00, 4736.83, 5446.49};
  for (int i = 0; i < 3; ++i) network.readings.push_back({Kind::distance, i, 3, read[i], 0.01});
  network.readings.push_back({Kind::rise, 0, 3, 0, 0.01});
  const Adjustment it = adjusted(network);
  EXPECT_NEAR(it.at[3].x, 6861.32, 5e-3);
  EXPECT_NEAR(it.at[3].y, 3727.82, 5e-3);
  const double left[] = {-.037, .077, -.047};
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(it.readings[i].residual_m, left[i], 5e-4);
  for (std::size_t p = 0; p < 3; ++p) EXPECT_EQ(it.at[p], network.points[p].at) << "it moved";
}

// A corner of which each axis is taped to a mark on it: along each way e one tape is off by e, to first order, and
// nothing else takes it up. BAARDA68: 4.13 deviations are found in 80 of 100.
TEST(Network, AHeldMarkThatStandsElsewhereIsToldByWhatIsReadFromItAndHowFarItMustBe) {
  constexpr double u = 0.003;
  Network network;
  for (const Point3 p : {Point3{0, 0, 0}, Point3{8, 0, 0}, Point3{0, 9, 0}, Point3{0, 0, 7}})
    network.points.push_back({p, std::nullopt, true});
  for (int to = 1; to < 4; ++to)
    network.readings.push_back(
        {Kind::distance, 0, to, norm(network.points[static_cast<std::size_t>(to)].at - Point3{}), u});
  const Adjustment sound = adjusted(network);
  ASSERT_EQ(sound.held.size(), 4u);
  EXPECT_EQ(sound.held[0].redundancy_less, 3);
  EXPECT_NEAR(sound.held[0].shows_from_m, 4.13 * u, 1e-12);
  EXPECT_EQ(sound.held[1].redundancy_less, 1) << "across its one tape nothing shows it";
  EXPECT_FALSE(std::isfinite(sound.held[1].shows_from_m));
  for (const HeldPoint& one : sound.held) EXPECT_FALSE(one.explains);
  for (NetworkReading& one : network.readings) one.value_m += 0.02;
  const Adjustment it = adjusted(network);
  EXPECT_FALSE(it.agrees);
  EXPECT_NEAR(it.held[0].chi_squared_less, 3 * 0.02 * 0.02 / (u * u), 1e-9);
  EXPECT_TRUE(it.held[0].explains);
  EXPECT_FALSE(it.held[1].explains) << "two more are off";
}

}  // namespace
}  // namespace fairlead

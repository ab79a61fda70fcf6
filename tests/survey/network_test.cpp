// Tapes and rises adjusted: a textbook's figure, what stays open, whose reading is not believed, and the laws.
#include "geometry/survey/network.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "geometry/survey/mirrored.hpp"

namespace fairlead {
namespace {

using Kind = NetworkReading::Kind;

double reading_of(const std::vector<Point3>& at, Kind kind, int from, int to) {
  const Vec3 way = at[static_cast<std::size_t>(to)] - at[static_cast<std::size_t>(from)];
  return kind == Kind::distance ? norm(way) : way.z;
}

/// Five that were shot, around three that were taped from four of them each, and to one another.
const std::vector<Point3> truth{{0, 0, 0}, {14, 1, 0.5}, {15, 9, 3},    {-1, 11, 1},
                                {6, 4, 8}, {5, 3, 2.5},  {8, 6.5, 3.1}, {3, 7, 2.2}};
constexpr std::size_t shot_points = 5;
constexpr double shot_m = 0.002, tape_m = 0.003;

Network site(const std::vector<Point3>& at = truth) {
  Network network;
  for (std::size_t p = 0; p < at.size(); ++p)
    network.points.push_back({at[p], p < shot_points ? std::optional(shot_m) : std::nullopt});
  const auto tape = [&](int from, int to) {
    network.readings.push_back({Kind::distance, from, to, reading_of(at, Kind::distance, from, to), tape_m});
  };
  for (const int mark : {5, 6, 7})
    for (int from = 0; from < 5; ++from) tape(from, mark);
  tape(5, 6);
  tape(7, 6);
  return network;
}

/// The marks that were not shot some way off, as a drawing has them.
Network from_afar(Network network, double off_m = 0.4) {
  for (std::size_t p = shot_points; p < network.points.size(); ++p)
    network.points[p].at = network.points[p].at + off_m * Vec3{0.6, -0.5, 0.4};
  return network;
}

Adjustment adjusted(const Network& network) {
  auto out = adjust(network);
  if (!out) throw std::runtime_error(out.error().why);
  return std::move(*out);
}

/// Variance of one coordinate; every point is known.
double variance(const Adjustment& it, std::size_t row) {
  const auto n = static_cast<std::size_t>(std::lround(std::sqrt(static_cast<double>(it.factor_m.size()))));
  double sum = 0;
  for (std::size_t k = 0; k < n; ++k) sum += it.factor_m[row * n + k] * it.factor_m[row * n + k];
  return sum;
}

// GHILANI10: three distances to a point in plan. The heights are held by rises, whose slope in plan is none; the marks
// by a hundredth of the distances' uncertainty. Half of the last printed digit.
TEST(Network, ATextbooksTrilaterationComesOutAsPrinted) {
  Network network;
  for (const Point3 p : {Point3{865.40, 4527.15, 0}, Point3{2432.55, 2047.25, 0}, Point3{2865.22, 27.15, 0}})
    network.points.push_back({p, 1e-4});
  network.points.push_back({{6865, 3900, 0}, std::nullopt});
  constexpr double u = 0.01;
  const double read[] = {6049.00, 4736.83, 5446.49};
  for (int i = 0; i < 3; ++i) network.readings.push_back({Kind::distance, i, 3, read[i], u});
  network.readings.push_back({Kind::rise, 0, 3, 0, u});
  const Adjustment it = adjusted(network);
  EXPECT_NEAR(it.at[3].x, 6861.32, 5e-3);
  EXPECT_NEAR(it.at[3].y, 3727.82, 5e-3);
  const double left[] = {-0.037, 0.077, -0.047};
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(it.readings[i].residual_m, left[i], 5e-4);
  EXPECT_EQ(it.redundancy, 1);
  // The deviation of unit weight is the root of the sum over one degree of freedom.
  const double scale = std::sqrt(it.chi_squared);
  EXPECT_NEAR(scale * u, 0.098, 5e-4);
  EXPECT_NEAR(scale * std::sqrt(variance(it, 9)), 0.078, 5e-4);
  EXPECT_NEAR(scale * std::sqrt(variance(it, 10)), 0.154, 5e-4);
}

// Levelling in a loop, as every textbook has it: equal readings share its closure.
TEST(Network, ALoopOfRisesSharesItsClosureEqually) {
  Network network{.points = {{{0, 0, 0}, 1e-6}, {{5, 0, 1}, std::nullopt}, {{0, 5, 2}, std::nullopt}}, .readings = {}};
  network.readings = {
      {Kind::rise, 0, 1, 1.000, 0.002}, {Kind::rise, 1, 2, 1.003, 0.002}, {Kind::rise, 2, 0, -1.997, 0.002}};
  const Adjustment it = adjusted(network);
  for (const Leftover& one : it.readings) {
    EXPECT_NEAR(one.residual_m, -0.002, 1e-8);
    EXPECT_NEAR(one.redundancy, 1.0 / 3, 1e-6);
    EXPECT_NEAR(one.standardised, -std::sqrt(3.0), 1e-5);
  }
  EXPECT_NEAR(it.at[1].z, 0.998, 1e-8);
  EXPECT_NEAR(it.at[2].z, 1.999, 1e-8);
  EXPECT_NE(it.open[1], "") << "its place in plan nobody read";
}

TEST(Network, ExactReadingsGiveThePlaceExactlyFromNearlyHalfAMetreOff) {
  const Adjustment it = adjusted(from_afar(site()));
  for (std::size_t p = 0; p < truth.size(); ++p) {
    EXPECT_LT(norm(it.at[p] - truth[p]), 1e-9) << p;
    EXPECT_EQ(it.open[p], "") << p;
  }
  EXPECT_EQ(it.redundancy, 5 * 3 + 17 - 8 * 3);
  EXPECT_TRUE(it.agrees);
}

// The shares of all equations add up to the redundancy (BAARDA68).
TEST(NetworkLaws, TheSharesOfRedundancyAddUp) {
  const Adjustment it = adjusted(site());
  double sum = 0;
  for (const Leftover& one : it.readings) sum += one.redundancy;
  for (const auto& shot : it.shots)
    for (const Leftover& one : shot) sum += one.redundancy;
  EXPECT_NEAR(sum, it.redundancy, 1e-9);
}

Network noisy(Network network, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  for (NetworkPoint& point : network.points)
    if (point.uncertainty_m) {
      const double u = *point.uncertainty_m;
      point.at = point.at + Vec3{u * normal(random), u * normal(random), u * normal(random)};
    }
  for (NetworkReading& one : network.readings) one.value_m += one.uncertainty_m * normal(random);
  return network;
}

TEST(NetworkLaws, ATurnedAndShiftedSiteComesOutTurnedAndShifted) {
  std::mt19937_64 random(7);
  const double c = std::cos(2.1), s = std::sin(2.1), c2 = std::cos(0.7), s2 = std::sin(0.7);
  const auto turned = [&](Point3 p) {
    const Point3 once{c * p.x - s * p.y, s * p.x + c * p.y, p.z};
    return Point3{once.x + 5120, c2 * once.y - s2 * once.z - 4800, s2 * once.y + c2 * once.z + 300};
  };
  for (int i = 0; i < 20; ++i) {
    const Network here = noisy(site(), random);
    Network there = here;
    for (NetworkPoint& point : there.points) point.at = turned(point.at);
    const Adjustment a = adjusted(here), b = adjusted(there);
    // Rounding of kilometres, 1e-12 m, over readings of 3 mm, and where the iteration stops, 1e-9 m.
    for (std::size_t p = 0; p < a.at.size(); ++p) EXPECT_LT(norm(b.at[p] - turned(a.at[p])), 1e-8);
    EXPECT_NEAR(a.chi_squared, b.chi_squared, 1e-6 * a.chi_squared);
    for (std::size_t p = 0; p < a.at.size(); ++p) {
      double at_a = 0, at_b = 0;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        at_a += variance(a, 3 * p + axis);
        at_b += variance(b, 3 * p + axis);
      }
      EXPECT_NEAR(at_a, at_b, 1e-8 * at_a);
    }
  }
}

TEST(NetworkLaws, TwiceTheSizeHasTwiceTheResiduals) {
  std::mt19937_64 random(8);
  const Network small = noisy(site(), random);
  Network large = small;
  for (NetworkPoint& point : large.points) {
    point.at = {2 * point.at.x, 2 * point.at.y, 2 * point.at.z};
    if (point.uncertainty_m) *point.uncertainty_m *= 2;
  }
  for (NetworkReading& one : large.readings) one.value_m *= 2, one.uncertainty_m *= 2;
  const Adjustment a = adjusted(small), b = adjusted(large);
  EXPECT_NEAR(a.chi_squared, b.chi_squared, 1e-9);
  for (std::size_t r = 0; r < a.readings.size(); ++r)
    EXPECT_NEAR(2 * a.readings[r].residual_m, b.readings[r].residual_m, 1e-8);
}

// 200 surveys: each coordinate of the taped marks lies within 1.96 of its standard deviations in 190 +- 3.1 of them;
// four and a half of that. And a thousandth of them at most is not believed, so that of 200 none to a few are.
TEST(NetworkLaws, NoiseOfTheStatedSizeIsFoundWithinTheStatedUncertaintyInTheStatedShare) {
  std::mt19937_64 random(20261127);
  std::array<int, 9> found{};
  int doubted = 0;
  double chi_squared = 0;
  constexpr int surveys = 200;
  for (int i = 0; i < surveys; ++i) {
    const Adjustment it = adjusted(from_afar(noisy(site(), random), 0.1));
    chi_squared += it.chi_squared / surveys;
    doubted += it.agrees ? 0 : 1;
    for (std::size_t p = shot_points; p < truth.size(); ++p) {
      ASSERT_EQ(it.open[p], "") << p;
      const Vec3 off = it.at[p] - truth[p];
      const double by[] = {off.x, off.y, off.z};
      for (std::size_t axis = 0; axis < 3; ++axis)
        found[3 * (p - shot_points) + axis] +=
            std::abs(by[axis]) <= 1.96 * std::sqrt(variance(it, 3 * p + axis)) ? 1 : 0;
    }
  }
  for (const int one : found) EXPECT_NEAR(one, 190, 4.5 * 3.1);
  // Its mean is the redundancy, 8, with a deviation of sqrt(2 * 8 / 200).
  EXPECT_NEAR(chi_squared, 8, 4.5 * std::sqrt(16.0 / surveys));
  // The largest of 32 leftovers exceeds 3.29 in up to 32 of 1000: 6.4 of 200 expected at most, 2.5 its deviation.
  EXPECT_LE(doubted, 6.4 + 4.5 * 2.5);
}

TEST(Network, AMisreadTapeIsNamedAndSoIsAMisplacedPoint) {
  std::mt19937_64 random(3);
  for (std::size_t r = 0; r < site().readings.size(); ++r) {
    Network network = noisy(site(), random);
    network.readings[r].value_m += 0.1;
    const Adjustment it = adjusted(network);
    EXPECT_FALSE(it.agrees) << r;
    EXPECT_EQ(it.worst_reading, static_cast<int>(r));
    EXPECT_EQ(it.worst_shot, -1);
    EXPECT_GT(it.worst, rejected_beyond);
  }
  Network network = site();
  network.points[1].at.x += 0.1;
  const Adjustment it = adjusted(network);
  EXPECT_FALSE(it.agrees);
  EXPECT_EQ(it.worst_shot, 1);
  EXPECT_EQ(it.worst_reading, -1);
}

// Among exact readings one that is off by e leaves e sqrt(r) / u of its deviations over, and chi-squared is the square
// of that (BAARDA68): of 8 degrees 12.25 is nothing, 3.5 deviations of one reading are.
TEST(Network, AGrossErrorThatHidesInTheSumOfGoodReadingsShowsByItself) {
  for (const auto& [deviations, agrees] : {std::pair{3.5, false}, std::pair{3.1, true}}) {
    Network network = site();
    network.readings[3].value_m += deviations * tape_m / std::sqrt(adjusted(network).readings[3].redundancy);
    const Adjustment it = adjusted(network);
    // Centimetres turn tapes of metres by a thousandth or two, and what is left over by as much.
    EXPECT_NEAR(it.worst, deviations, 2e-3 * deviations);
    EXPECT_NEAR(it.chi_squared, deviations * deviations, 4e-3 * deviations * deviations);
    EXPECT_GT(it.probability, 0.1);
    EXPECT_EQ(it.agrees, agrees) << deviations;
  }
}

/// A mark over the triangle of SQUARES, read from so many of five marks.
Network over_a_triangle(const std::vector<int>& from, std::vector<NetworkReading> more = {}) {
  const std::vector<Point3> at{{0, 0, 0}, {4, 0, 0}, {0, 3, 0}, {4, 3, 0}, {1, 1, 9}, {1, 1, 2}};
  Network network;
  for (std::size_t p = 0; p < 5; ++p) network.points.push_back({at[p], shot_m});
  network.points.push_back({at[5] + Vec3{0.1, 0, 0.1}, std::nullopt});
  for (const int i : from)
    network.readings.push_back({Kind::distance, i, 5, reading_of(at, Kind::distance, i, 5), tape_m});
  for (NetworkReading& one : more) network.readings.push_back(one);
  return network;
}

TEST(Network, AHeldMarkFromWhichNothingIsReadIsShownByNothing) {
  Network network = over_a_triangle({0, 1, 2, 4});
  for (std::size_t p = 0; p < 5; ++p) {
    network.points[p].uncertainty_m.reset();
    network.points[p].held = true;
  }
  const Adjustment it = adjusted(network);
  EXPECT_EQ(it.open[5], "");
  EXPECT_LT(norm(it.at[5] - Point3{1, 1, 2}), 1e-9);
  EXPECT_EQ(it.held[3].redundancy_less, 0);
  EXPECT_FALSE(std::isfinite(it.held[3].shows_from_m));
  EXPECT_EQ(it.redundancy, 1);
  EXPECT_EQ(it.held[0].redundancy_less, 1);
}

// SQUARES: the mirror image stands 4 m below.
TEST(Network, WhatTheReadingsDoNotTellApartStaysOpenWhateverTheDrawingSays) {
  const std::string two =
      "two places 4.00 m apart explain its readings: read it from a mark off the plane of the others";
  EXPECT_EQ(adjusted(over_a_triangle({0, 1, 2})).open[5], two);
  EXPECT_EQ(adjusted(over_a_triangle({0, 1, 2, 3})).open[5], two) << "the fourth stands in their plane";
  EXPECT_EQ(adjusted(over_a_triangle({0, 1, 2, 4})).open[5], "");
  EXPECT_EQ(adjusted(over_a_triangle({0, 1, 2}, {{Kind::rise, 0, 5, 2, tape_m}})).open[5], "");
  EXPECT_NE(adjusted(over_a_triangle({0, 1})).open[5], "");
  // Two tapes and a rise leave left and right of the plumb plane through the two: 2 m.
  EXPECT_EQ(adjusted(over_a_triangle({0, 1}, {{Kind::rise, 0, 5, 2, tape_m}})).open[5],
            "two places 2.00 m apart explain its readings: read it from a mark off the plane of the others");
}

// Either would break the tape between them; both at once do not.
TEST(Network, TwoMarksThatMayStandMirroredTogetherStayOpen) {
  const std::vector<Point3> at{{0, 0, 0}, {4, 0, 0}, {0, 3, 0}, {1, 1, 2}, {2, 1, 1.5}};
  Network network;
  for (std::size_t p = 0; p < 5; ++p) network.points.push_back({at[p], p < 3 ? std::optional(shot_m) : std::nullopt});
  for (int mark = 3; mark < 5; ++mark)
    for (int from = 0; from < mark; ++from)
      network.readings.push_back({Kind::distance, from, mark, reading_of(at, Kind::distance, from, mark), tape_m});
  const Adjustment it = adjusted(network);
  EXPECT_NE(it.open[3], "");
  EXPECT_NE(it.open[4], "");
  EXPECT_EQ(it.open[0], "");
  EXPECT_TRUE(it.agrees);
}

TEST(Network, AMarkNearlyInThePlaneOfItsReadingsIsNotPlacedByThem) {
  Network network = over_a_triangle({0, 1, 2, 3});
  const Point3 low{1, 1, 0.02};
  network.points[5].at = low;
  for (NetworkReading& one : network.readings)
    one.value_m = norm(low - network.points[static_cast<std::size_t>(one.from)].at);
  EXPECT_NE(adjusted(network).open[5].find("too flat"), std::string::npos) << adjusted(network).open[5];
}

TEST(Network, WhatIsOpenTakesNothingFromTheOthers) {
  Network network = site();
  network.points.push_back({{2, 2, 2}, std::nullopt});
  network.readings.push_back({Kind::distance, 0, 8, 3.4, tape_m});
  const Adjustment with = adjusted(network), without = adjusted(site());
  EXPECT_NE(with.open[8], "");
  for (std::size_t p = 0; p < truth.size(); ++p) {
    EXPECT_EQ(with.open[p], "") << p;
    EXPECT_LT(norm(with.at[p] - without.at[p]), 1e-8);
  }
  EXPECT_EQ(with.factor_m.size(), without.factor_m.size());
  EXPECT_NEAR(variance(with, 15), variance(without, 15), 1e-6 * variance(without, 15));
  EXPECT_EQ(with.redundancy, without.redundancy);
}

TEST(Network, TooManyThatHangTogetherByTapesAloneStayOpen) {
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> in(0, 10);
  std::vector<Point3> at{{0, 0, 0}, {10, 0, 1}, {0, 10, 2}, {3, 3, 10}};
  for (int i = 0; i < 9; ++i) at.push_back({in(random), in(random), in(random)});
  Network network;
  for (std::size_t p = 0; p < at.size(); ++p)
    network.points.push_back({at[p], p < 4 ? std::optional(shot_m) : std::nullopt});
  for (int mark = 4; mark < 13; ++mark)
    for (int from = 0; from < mark; ++from)
      network.readings.push_back({Kind::distance, from, mark, reading_of(at, Kind::distance, from, mark), tape_m});
  EXPECT_EQ(hanging_together(network).size(), 1u);
  EXPECT_NE(adjusted(network).open[4].find("9 marks hang together"), std::string::npos) << adjusted(network).open[4];
}

TEST(Network, WhatIsNoNumberIsRefused) {
  const auto why = [](const Network& network) {
    const auto out = adjust(network);
    return out ? "it is adjusted" : out.error().why;
  };
  Network network = site();
  network.readings[3].value_m = std::nan("");
  EXPECT_EQ(why(network), "a reading or its uncertainty is not known");
  network = site();
  network.readings[3].uncertainty_m = 0;
  EXPECT_EQ(why(network), "a reading or its uncertainty is not known");
  network = site();
  network.readings[3].to = network.readings[3].from;
  EXPECT_EQ(why(network), "a reading needs two points");
  network = site();
  network.points[6].at.y = std::nan("");
  EXPECT_EQ(why(network), "a point's place is not known");
  network = site();
  network.points[0].uncertainty_m = 0;
  EXPECT_EQ(why(network), "the uncertainty of the points is not known");
  network = site();
  network.points[0].held = true;
  EXPECT_EQ(why(network), "a point is both shot and held");
  network.points.resize(201);
  EXPECT_EQ(why(network), "201 points are read to one another, and no more than 200 are adjusted");
}

}  // namespace
}  // namespace fairlead

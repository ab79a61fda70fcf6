// Lines touching sheaves: contacts, wraps, senses, fleet angles and the pull on a sheave.
#include "geometry/reeving/contact.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "tests/reeving/rigs.hpp"

namespace fairlead::reeving {
namespace {

constexpr double pi = std::numbers::pi, degree = pi / 180;

const Tension weightless{.at_N = 100};

Sheave sheave_at(double x, double radius_m, int sense) { return {{x, 0, 0}, {0, 1, 0}, radius_m, sense}; }

/// Length of an endless line round two sheaves.
double belt(const Sheave& a, const Sheave& b) {
  const auto there = meet(leaving(a), arriving(b), weightless), back = meet(leaving(b), arriving(a), weightless);
  return there->hang.length_m + back->hang.length_m +
         a.radius_m * wrap_angle(back->to_e, there->from_e, a.axle, a.sense) +
         b.radius_m * wrap_angle(there->to_e, back->from_e, b.axle, b.sense);
}

// Source BELT [27.32 read, rest own]: discs of 1600 and 500 mm at 12 m: open 27.323885 m, crossed 27.390606 m.
TEST(Contact, AnOpenAndACrossedBeltHaveTheirTextbookLengths) {
  EXPECT_NEAR(belt(sheave_at(0, 0.8, 1), sheave_at(12, 0.25, 1)), 27.323885, 5e-7);
  EXPECT_NEAR(belt(sheave_at(0, 0.8, 1), sheave_at(12, 0.25, -1)), 27.390606, 5e-7);
}

TEST(Contact, ABeltsWrapsAreHalfATurnMoreOrLess) {
  const Sheave big = sheave_at(0, 0.8, 1), small = sheave_at(12, 0.25, 1);
  const auto there = meet(leaving(big), arriving(small), weightless),
             back = meet(leaving(small), arriving(big), weightless);
  EXPECT_NEAR(wrap_angle(back->to_e, there->from_e, big.axle, 1), pi + 2 * std::asin(0.55 / 12), 1e-12);
  EXPECT_NEAR(wrap_angle(there->to_e, back->from_e, small.axle, 1), pi - 2 * std::asin(0.55 / 12), 1e-12);
}

// Closed form of a straight leg from a sheave: h = d . k, l = sqrt(d^2 - r^2), sin(fleet) = h / l, contact angle from
// the in-plane direction acos(r / |p|).
TEST(Contact, AStraightLegHasTheClosedForm) {
  const Sheave sheave{{1, 2, 3}, unit({0.1, 1, -0.2}), 0.06, 1};
  for (const Vec3 d : {Vec3{1.5, 0.05, -0.8}, Vec3{-20, 0.4, 3}, Vec3{0.05, 0.01, 0.08}}) {
    const auto leg = meet(point_end(sheave.centre + d), arriving(sheave), weightless);
    ASSERT_TRUE(leg);
    const double l = std::sqrt(dot(d, d) - 0.06 * 0.06), h = dot(d, sheave.axle);
    EXPECT_NEAR(leg->hang.length_m, l, 1e-12 * l);
    EXPECT_NEAR(fleet_angle(leg->hang.to_pull_N(), sheave.axle), std::asin(h / l), 1e-12);
    const Vec3 p = unit(d - h * sheave.axle);
    EXPECT_NEAR(dot(leg->to_e, p), 0.06 / std::sqrt(dot(d, d) - h * h), 1e-12);
    EXPECT_LT(dot(cross(sheave.axle, leg->to_e), leg->hang.to_pull_N()), 0) << "arriving, the line runs off backward";
  }
}

TEST(Contact, AHangingLegLeavesTheGrooveSquareToTheRadiusOfItsEndTangent) {
  const Sheave a{{0, 0, 0}, unit({0.03, 1, -0.02}), 0.06, 1}, b{{28, 0.3, -0.2}, unit({-0.02, 1, 0.02}), 0.05, 1};
  const auto leg = meet(leaving(a), arriving(b), Tension{45, {}, 1.2});
  ASSERT_TRUE(leg);
  EXPECT_NEAR(dot(leg->hang.from_pull_N(), leg->from_e), 0, 45e-11);
  EXPECT_NEAR(dot(leg->hang.to_pull_N(), leg->to_e), 0, 45e-11);
  EXPECT_GT(std::abs(dot(unit(leg->hang.span), leg->from_e)), 0.1) << "the chord is another direction";
  EXPECT_NEAR(leg->hang.from_tension_N(), 45 + 1.2 * 0.06 * leg->from_e.z, 1e-12);
}

TEST(Contact, NoLegLeavesAPointWithinTheSheave) {
  EXPECT_FALSE(meet(point_end({0.05, 0.3, 0}), arriving(sheave_at(0, 0.06, 1)), weightless));
  EXPECT_FALSE(straight_wrap({0.05, 0.3, 0}, {5, 0, 0}, sheave_at(0, 0.06, 1)));
}

TEST(Contact, ItsDerivativesAreThoseOfDifferences) {
  const Sheave sheave{{1.7, 0.05, 1}, unit({0.03, 1, -0.02}), 0.06, 1};
  const Point3 eye{0, 0, 0};
  const Vec3 move{0.6, 0.1, -0.4};
  const auto at = [&](double e) {
    return *meet(point_end(eye + e * move), arriving(sheave), Tension{60 + e * 3, {0, 0, 1}, 1.2});
  };
  constexpr double e = 1e-5;
  const MetLeg leg = at(0), up = at(e), down = at(-e);
  const MetLegChange change = vary(leg, point_end(eye), arriving(sheave), {move, {}}, {}, 3);
  EXPECT_NEAR(change.length_m, (up.hang.length_m - down.hang.length_m) / (2 * e), 1e-8);
  EXPECT_NEAR(change.to_turn_rad, dot(cross(down.to_e, up.to_e), sheave.axle) / (2 * e), 1e-7);
  EXPECT_NEAR(norm(change.from_pull_N - (1 / (2 * e)) * (up.hang.from_pull_N() - down.hang.from_pull_N())), 0, 1e-6);
}

// Both ends shift and turn with their bodies, the tension changes, the load hangs aslant: all at once and each alone.
TEST(Contact, ItAnswersRigidMovesOfBothEndsAsDifferencesDo) {
  const Sheave a{{0, 0, 0}, unit({0.03, 1, -0.02}), 0.06, 1}, b{{5, 0.3, -0.2}, unit({-0.1, 1, 0.2}), 0.05, -1};
  const Vec3 up = unit({0.1, -0.3, 1});
  struct Moved {
    Move from, to;
    double tension_N;
  };
  const Moved all{{{0.3, -0.2, 0.5}, {0.4, 0.1, -0.6}}, {{-0.1, 0.7, 0.2}, {-0.3, 0.2, 0.5}}, 3};
  for (const Moved& m : {Moved{all.from, {}, 0}, Moved{{}, all.to, 0}, Moved{{}, {}, 3}, all})
    for (const bool to_a_point : {false, true}) {
      const auto turned = [](Vec3 v, Vec3 by) {
        const double angle = norm(by);
        const Vec3 k = angle > 0 ? (1 / angle) * by : Vec3{1, 0, 0};
        return std::cos(angle) * v + std::sin(angle) * cross(k, v) + ((1 - std::cos(angle)) * dot(k, v)) * k;
      };
      const auto ends = [&](double e) {
        LegEnd from = leaving(a), to = to_a_point ? point_end(b.centre) : arriving(b);
        from.centre = from.centre + e * m.from.shift;
        to.centre = to.centre + e * m.to.shift;
        from.axle = turned(from.axle, e * m.from.turn);
        to.axle = turned(to.axle, e * m.to.turn);
        return std::pair{from, to};
      };
      const auto at = [&](double e) {
        const auto [from, to] = ends(e);
        return *meet(from, to, Tension{60 + e * m.tension_N, {1, 0, 0}, 1.2, up});
      };
      // Third derivatives up to T / r^2 = 2e4: e^2 of them over 6 is 3e-7; contacts met to 1e-12 over e.
      constexpr double e = 1e-5, bound = 5e-6;
      const MetLeg leg = at(0), more = at(e), less = at(-e);
      const auto [from, to] = ends(0);
      const MetLegChange d = vary(leg, from, to, m.from, m.to, m.tension_N);
      const auto rate = [&](Vec3 p, Vec3 q) { return (1 / (2 * e)) * (p - q); };
      EXPECT_NEAR(d.length_m, (more.hang.length_m - less.hang.length_m) / (2 * e), bound);
      EXPECT_NEAR(d.mid_tension_N, (more.hang.mid_tension_N - less.hang.mid_tension_N) / (2 * e), bound);
      EXPECT_NEAR(norm(d.from_pull_N - rate(more.hang.from_pull_N(), less.hang.from_pull_N())), 0, 10 * bound);
      EXPECT_NEAR(norm(d.to_pull_N - rate(more.hang.to_pull_N(), less.hang.to_pull_N())), 0, 10 * bound);
      // A contact goes along with its body, and turns about the axle as seen from there.
      const Vec3 from_e = cross(m.from.turn, leg.from_e) + d.from_turn_rad * cross(from.axle, leg.from_e),
                 to_e = cross(m.to.turn, leg.to_e) + d.to_turn_rad * cross(to.axle, leg.to_e);
      EXPECT_NEAR(norm(from_e - rate(more.from_e, less.from_e)), 0, bound);
      EXPECT_NEAR(norm(to_e - rate(more.to_e, less.to_e)), 0, bound);
    }
}

/// One sheave with a given angle between its legs, weightless.
Reeved bent(double between_rad, double radius_m, Inputs& in) {
  const Vec3 k{0, 1, 0}, first{1, 0, 0}, second{std::cos(between_rad), 0, std::sin(between_rad)};
  in = worked_rig();
  in.lines = {{.from = {{}, on_trolley}, .sheaves = 1}};
  in.sheaves = {{{0, 0, 0}, k, radius_m, 1}};
  // Each leg is tangent: it begins at the radius square to it.
  in.lines[0].to.at = Point3{} + radius_m * cross(second, k) + 9 * second;
  Reeved line;
  EXPECT_TRUE(reeve(in, Point3{} - radius_m * cross(first, k) + 7 * first, 1000, line));
  return line;
}

// Source AF [read]: load on a sheave over line tension, by the angle between the
// parts. Entries are rounded or cut: 0.01.
TEST(Sheave, ItsPullFollowsTheAngleFactorTable) {
  for (const auto& [deg, factor] :
       {std::pair{0.0, 2.00}, {45.0, 1.84}, {60.0, 1.73}, {90.0, 1.41}, {120.0, 1.00}, {135.0, 0.76}, {150.0, 0.52}}) {
    Inputs in;
    const Reeved line = bent(deg * degree, 0.06, in);
    const Vec3 force = line.legs[0].hang.to_pull_N() + line.legs[1].hang.from_pull_N();
    EXPECT_NEAR(norm(force) / 1000, factor, 0.01) << deg;
    EXPECT_NEAR(norm(force) / 1000, 2 * std::cos(deg * degree / 2), 1e-11) << deg;
    EXPECT_NEAR(line.wrap_rad[0], pi - deg * degree, 1e-11) << deg;
  }
}

// Source FA [read]: 1.5 deg is 38:1, 2 deg 29:1, 0.5 deg 115:1. Half of the ratio's last digit.
TEST(Sheave, TheFleetAnglesRuleOfThumbHolds) {
  for (const auto& [deg, ratio] : {std::pair{1.5, 38.0}, {2.0, 29.0}, {0.5, 115.0}})
    for (const double side : {1.0, -1.0}) {
      EXPECT_LT(side * fleet_angle({ratio + 0.5, side, 0}, {0, 1, 0}), deg * degree);
      EXPECT_GT(side * fleet_angle({ratio - 0.5, side, 0}, {0, 1, 0}), deg * degree);
    }
}

// Source SKEW [own]: r 60 mm, leg 1.7 m, fleet 1.69 deg: the line's length changes by
// what its end moves along it and, to first order, by r (1 - cos f) dtheta more, of the order of 1e-6 m per metre.
TEST(Sheave, AFleetAngleTakesAFirstOrderShareOfTheLength) {
  Inputs in;
  bent(0.3, 0.06, in);
  const double f = 1.69 * degree;
  Reeved line;
  const Point3 eye{1.7 * std::cos(f), 1.7 * std::sin(f), -0.06};
  ASSERT_TRUE(reeve(in, eye, 1000, line));
  const double fleet = fleet_angle(line.legs[0].hang.to_pull_N(), in.sheaves[0].axle);
  EXPECT_NEAR(fleet, f, 1e-9);
  for (const Vec3 move : {Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}, unit({0.9, 0, -0.1})}) {
    const MetLegChange leg = vary(line.legs[0], point_end(eye), arriving(in.sheaves[0]), {move, {}}, {}, 0);
    const double drawn = leg.length_m - 0.06 * in.sheaves[0].sense * leg.to_turn_rad,
                 along = -dot(unit(line.legs[0].hang.from_pull_N()), move);
    EXPECT_NEAR(drawn - along, -0.06 * (1 - std::cos(fleet)) * leg.to_turn_rad, 1e-12);
    EXPECT_LT(std::abs(drawn - along), 0.06 * (1 - std::cos(f)) / 1.6);
  }
}

TEST(Sense, TheOneThatTurnsTheLineLeastIsDerived) {
  Sheave redirect{{0, 0, 0}, {0, 1, 0}, 0.06, 0};
  // Trolley below and downstream, unit level and downstream: up and round, anticlockwise about the axle to the left.
  EXPECT_EQ(derive_sense({1.7, 0, -1}, {30, 0, 0}, redirect), 1);
  EXPECT_EQ(derive_sense({30, 0, 0}, {1.7, 0, -1}, redirect), -1) << "the same line, run the other way";
  EXPECT_EQ(derive_sense({1.7, 0, -1}, {30, 0, 0}, {redirect.centre, {0, -1, 0}, 0.06, 0}), -1) << "seen from behind";
}

TEST(Sense, ParallelLegsLeaveItToTheAuthor) {
  const Sheave redirect{{0, 0, 0}, {0, 1, 0}, 0.06, 0};
  EXPECT_EQ(derive_sense({30, 0, -1}, {30, 0, 0}, redirect), std::nullopt);
  EXPECT_EQ(derive_sense({0.01, 0, 0.02}, {30, 0, 0}, redirect), std::nullopt) << "no leg either way";
}

TEST(Wrap, ItCountsFromZeroToAFullTurnInTheSense) {
  const Vec3 k{0, 1, 0}, e{0, 0, 1}, quarter{1, 0, 0};
  EXPECT_NEAR(wrap_angle(e, quarter, k, 1), pi / 2, 1e-15);
  EXPECT_NEAR(wrap_angle(e, quarter, k, -1), 3 * pi / 2, 1e-15);
  EXPECT_EQ(wrap_angle(e, e, k, 1), 0);
}

}  // namespace
}  // namespace fairlead::reeving

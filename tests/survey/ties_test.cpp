// Tie distances: worked cases, what refuses them, and their laws. The place is found again by a trilateration of the
// tests' own.
#include "geometry/survey/ties.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace fairlead {
namespace {

constexpr double rounding = 1e-12;  // of lengths of metres and their differences

// SPHERES: their common points, in the frame of the three marks.
std::array<Point3, 2> trilaterated(Point3 a, Point3 b, Point3 c, double to_a, double to_b, double to_c) {
  const double d = norm(b - a);
  const Vec3 ex = unit(b - a);
  const double i = dot(ex, c - a);
  const Vec3 ey = unit((c - a) - i * ex), ez = cross(ex, ey);
  const double j = dot(ey, c - a);
  const double x = (to_a * to_a - to_b * to_b + d * d) / (2 * d);
  const double y = (to_a * to_a - to_c * to_c + i * i + j * j) / (2 * j) - i / j * x;
  const double z = std::sqrt(to_a * to_a - x * x - y * y);
  return {a + x * ex + y * ey + z * ez, a + x * ex + y * ey - z * ez};
}

Point3 mark_of(const TieInputs& in, int index) {
  const auto i = static_cast<std::size_t>(index);
  return i < in.known.size() ? in.known[i] : in.wanted[i - in.known.size()];
}

TiedMark tied(const TieInputs& in, std::size_t wanted = 0) {
  const Ties ties = choose_ties(in);
  EXPECT_TRUE(ties.wanted.at(wanted)) << ties.wanted.at(wanted).error().why;
  return ties.wanted.at(wanted).value();
}

std::string why(const TieInputs& in, std::size_t wanted = 0) {
  const Ties ties = choose_ties(in);
  return ties.wanted.at(wanted) ? "it is tied" : ties.wanted.at(wanted).error().why;
}

void expect_near(Point3 a, Point3 b, double error) { EXPECT_LE(norm(a - b), error) << a.x << " " << a.y << " " << a.z; }

const std::vector<Point3> triangle{{0, 0, 0}, {4, 0, 0}, {0, 3, 0}};

// SQUARES: the distances are the square roots of 6, 14 and 9.
TEST(Ties, ThreeTapesFixAMarkUpToItsMirrorImage) {
  const TiedMark mark = tied({.known = triangle, .wanted = {{1, 1, 2}}});
  EXPECT_NEAR(mark.ties[0].distance_m, std::sqrt(6.), rounding);
  EXPECT_NEAR(mark.ties[1].distance_m, std::sqrt(14.), rounding);
  EXPECT_NEAR(mark.ties[2].distance_m, 3, rounding);
  for (int i = 0; i < 3; ++i) {
    EXPECT_EQ(mark.ties[static_cast<std::size_t>(i)].from, i);
    EXPECT_EQ(mark.ties[static_cast<std::size_t>(i)].to, 3);
  }
  expect_near(mark.mirror, {1, 1, -2}, rounding);
  EXPECT_NEAR(mark.height_m, 2, rounding);
  EXPECT_EQ(mark.normal, (Vec3{0, 0, 1})) << "the mark stands above";
  EXPECT_TRUE(mark.mirror_apart);
  EXPECT_FALSE(mark.check) << "there is no fourth mark";
  EXPECT_EQ(tied({.known = triangle, .wanted = {{1, 1, -2}}}).normal, (Vec3{0, 0, -1})) << "and here below";
}

TEST(Ties, AFourthMarkOffThePlaneTellsTheMirrorAndOneInThePlaneDoesNot) {
  std::vector<Point3> known = triangle;
  known.push_back({4, 3, 0});
  const TiedMark flat = tied({.known = known, .wanted = {{1, 1, 2}}});
  ASSERT_TRUE(flat.check);
  EXPECT_FALSE(flat.check->tells_mirror);
  EXPECT_NEAR(flat.check->at_mirror_m, flat.check->tie.distance_m, rounding);
  known.push_back(
      {1, 1, 9});  // straight above the mark and its mirror: it makes a poor tape of three, and the best check
  const TiedMark told = tied({.known = known, .wanted = {{1, 1, 2}}, .greatest_dilution = 5});
  ASSERT_TRUE(told.check);
  EXPECT_TRUE(told.check->tells_mirror);
  const Point3 fourth = known[static_cast<std::size_t>(told.check->tie.from)];
  EXPECT_NEAR(told.check->tie.distance_m, norm(fourth - Point3{1, 1, 2}), rounding);
  EXPECT_NEAR(told.check->at_mirror_m, norm(fourth - told.mirror), rounding);
  EXPECT_GT(std::abs(told.check->at_mirror_m - told.check->tie.distance_m), 2 * (told.dilution + 1) * 0.005);
}

// Tapes square to one another: each error stands in the place as it is, and the three together sqrt 3 of it.
TEST(Ties, TapesSquareToOneAnotherHaveTheLeastDilutionThereIs) {
  const TieInputs square{.known = {{5, 0, 0}, {0, 5, 0}, {0, 0, 5}}, .wanted = {{0, 0, 0}}};
  EXPECT_NEAR(tied(square).dilution, std::sqrt(3.), rounding);
  TieInputs more = square;
  more.known.insert(more.known.begin(), {{4, 1, 1}, {1, 4, 2}, {3, 3, 3}});
  const TiedMark chosen = tied(more);
  EXPECT_NEAR(chosen.dilution, std::sqrt(3.), rounding);
  EXPECT_EQ(chosen.ties[0].from, 3);
  EXPECT_EQ(chosen.ties[2].from, 5);
}

// The dilution is what a small error of each tape does to the place, taken by differences of the trilateration.
TEST(Ties, TheDilutionIsHowFarTheTapesErrorsMoveThePlace) {
  const TieInputs in{.known = {{0, 0, 1}, {9, 1, 0}, {2, 8, 3}}, .wanted = {{4, 2, 6}}};
  const TiedMark mark = tied(in);
  constexpr double step = 1e-5;
  double squares = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    std::array<double, 3> longer{}, shorter{};
    for (std::size_t k = 0; k < 3; ++k) longer[k] = shorter[k] = mark.ties[k].distance_m;
    longer[i] += step;
    shorter[i] -= step;
    const auto side = [&](const std::array<double, 3>& d) {
      const auto both = trilaterated(in.known[0], in.known[1], in.known[2], d[0], d[1], d[2]);
      return norm(both[0] - in.wanted[0]) < norm(both[1] - in.wanted[0]) ? both[0] : both[1];
    };
    const Vec3 moved = (0.5 / step) * (side(longer) - side(shorter));
    squares += dot(moved, moved);
  }
  // Third order of the step over the distances, and rounding over the step.
  EXPECT_NEAR(mark.dilution, std::sqrt(squares), 1e-9);
}

// Three tapes at one angle t to an axis, evenly about it: A^T A = diag(3/2 sin^2 t, 3/2 sin^2 t, 3 cos^2 t), so the
// dilution is the root of 4 / (3 sin^2 t) + 1 / (3 cos^2 t). Here cos t = 0.15, the mark 45 mm over the marks' plane:
// its mirror is 90 mm off, and tapes good to 20 mm put the mark 80 mm off either way.
TEST(Ties, AMirrorNearerThanTheTapesErrorsIsSaidToBeSo) {
  const double out_m = 0.3 * std::sqrt(1 - 0.15 * 0.15), root3 = std::sqrt(3.);
  TieInputs in{.known = {{out_m, 0, 0}, {-out_m / 2, out_m * root3 / 2, 0}, {-out_m / 2, -out_m * root3 / 2, 0}},
               .wanted = {{0, 0, 0.045}},
               .tape_error_m = 0.02};
  EXPECT_NEAR(tied(in).dilution, std::sqrt(4 / (3 * (1 - 0.15 * 0.15)) + 1 / (3 * 0.15 * 0.15)), rounding);
  EXPECT_FALSE(tied(in).mirror_apart);
  in.tape_error_m = 0.01;
  EXPECT_TRUE(tied(in).mirror_apart);
}

TEST(Ties, AMarkInOnePlaneWithItsNeighboursIsRefusedWithHowFlatItIs) {
  std::vector<Point3> square = triangle;
  square.push_back({4, 3, 0});
  EXPECT_EQ(why({.known = square, .wanted = {{1, 1, 0}}}), "it lies in one plane with all 4 marks in reach");
  const TieInputs low{.known = square, .wanted = {{2, 1.5, 0.2}}};
  EXPECT_TRUE(why(low).starts_with("its directions to the 4 marks in reach are too flat: ")) << why(low);
  EXPECT_GT(choose_ties(low).wanted[0].error().residual, 5);
  TieInputs allowed = low;
  allowed.greatest_dilution = choose_ties(low).wanted[0].error().residual;
  EXPECT_EQ(tied(allowed).dilution, allowed.greatest_dilution) << "the limit itself is allowed";
}

TEST(Ties, ATapeIsNoLongerThanTheLongestAndItselfIsLongEnough) {
  const TieInputs in{.known = triangle, .wanted = {{1, 1, 2}}, .longest_tape_m = std::sqrt(14.) - 1e-9};
  EXPECT_EQ(why(in), "three tapes are needed, and of 3 standing marks 2 can be reached; 1 farther than 3.742 m");
  TieInputs longer = in;
  longer.longest_tape_m = std::sqrt(14.) + 1e-9;
  EXPECT_EQ(why(longer), "it is tied");
  EXPECT_EQ(why({.known = {{1, 1, 2.01}, {4, 0, 0}, {0, 3, 0}}, .wanted = {{1, 1, 2}}}),
            "three tapes are needed, and of 3 standing marks 2 can be reached; 1 too near to give a direction");
}

TEST(Ties, ATapeThatWouldTouchSomethingSolidIsNotPulled) {
  const TieInputs in{.known = triangle, .wanted = {{1, 1, 2}}};
  const std::string blocked = "three tapes are needed, and of 3 standing marks 2 can be reached; 1 without a clear run";
  // The run from (4, 0, 0) passes (2.5, 0.5, 1).
  const auto with = [&](const solids::Shape& shape) {
    TieInputs among = in;
    among.obstacles = {shape};
    return why(among);
  };
  EXPECT_EQ(with(solids::Box{.centre = {2.5, 0.5, 1}, .half_m = {0.1, 0.1, 0.1}}), blocked);
  EXPECT_EQ(with(solids::Post{{2.5, 0.5, 0}, {2.5, 0.5, 3}, 0.1}), blocked);
  EXPECT_EQ(with(solids::Post{{2.5, 0.5 + 0.1 + 0.03, 0}, {2.5, 0.5 + 0.1 + 0.03, 3}, 0.1}), "it is tied");
  // Its axis is passed at 0.115 m x 3/sqrt(10) = 0.109 m: 9 mm from its side, and 20 mm are wanted.
  EXPECT_EQ(with(solids::Post{{2.5, 0.5 + 0.115, 0}, {2.5, 0.5 + 0.115, 3}, 0.1}), blocked);
  EXPECT_EQ(with(solids::Plane{{0, 0, -0.5}, {0, 0, 1}}), "it is tied") << "the ground below all marks";
  EXPECT_EQ(with(solids::Plane{{3.5, 0, 0}, {-1, 0, 0}}), blocked) << "a wall before the mark at x = 4";
  // Within the mark's own fitting the tape may touch what holds the mark.
  EXPECT_EQ(with(solids::Box{.centre = {4.05, 0, -0.05}, .half_m = {0.05, 0.05, 0.05}}), "it is tied");
}

TEST(Ties, AMarkWithoutAPlaceIsNotTiedAndServesNoOther) {
  const double unknown = std::nan("");
  EXPECT_EQ(why({.known = triangle, .wanted = {{unknown, 1, 2}}}), "its place is not known");
  std::vector<Point3> known = triangle;
  known[1].y = unknown;
  EXPECT_EQ(why({.known = known, .wanted = {{1, 1, 2}}}),
            "three tapes are needed, and of 2 standing marks 2 can be reached");
}

// (7, 3, 3) is in reach of one known mark, (4, 0, 0); with (3, 1, 3) and (4, 5, 2.5), tied before it, it is fixed.
TEST(Ties, AMarkMayBeTiedToThoseSetOutBeforeIt) {
  const TieInputs in{.known = triangle, .wanted = {{7, 3, 3}, {3, 1, 3}, {4, 5, 2.5}}, .longest_tape_m = 7.5};
  const Ties ties = choose_ties(in);
  EXPECT_EQ(ties.order, (std::vector<int>{1, 2, 0}));
  ASSERT_TRUE(ties.wanted[0]) << ties.wanted[0].error().why;
  EXPECT_EQ(ties.wanted[0]->ties[0].from, 1);
  EXPECT_EQ(ties.wanted[0]->ties[1].from, 4);
  EXPECT_EQ(ties.wanted[0]->ties[2].from, 5);
  for (const Tie& tie : ties.wanted[1]->ties) EXPECT_LT(tie.from, 3) << "known marks suffice, so they are used";
}

TEST(Ties, MarksThatAllStandAlreadyMayBeCheckedAgainstEachOther) {
  TieInputs in{.known = {}, .wanted = {{0, 0, 0}, {4, 0, 0}, {0, 3, 0}, {1, 1, 2}}};
  EXPECT_TRUE(choose_ties(in).order.empty()) << "nothing stands to begin with";
  EXPECT_EQ(why(in), "three tapes are needed, and of 0 standing marks 0 can be reached");
  in.in_turn = false;
  EXPECT_EQ(choose_ties(in).order.size(), 4u);
}

TieInputs random_site(std::mt19937_64& draw) {
  const auto within = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(draw() >> 11) * 0x1p-53;
  };
  const auto place = [&] { return Point3{within(-12, 12), within(-12, 12), within(0, 9)}; };
  TieInputs in;
  for (int i = 0; i < 6; ++i) in.known.push_back(place());
  for (int i = 0; i < 3; ++i) in.wanted.push_back(place());
  in.obstacles = {solids::Post{place(), place(), 0.2}, solids::Plane{{0, 0, -0.1}, {0, 0, 1}}};
  return in;
}

TEST(TieLaws, TheThreeDistancesAndTheSideGiveThePlaceAndItsMirrorBack) {
  std::mt19937_64 draw(41);
  int found = 0;
  for (int trial = 0; trial < 200; ++trial) {
    const TieInputs in = random_site(draw);
    const Ties ties = choose_ties(in);
    for (std::size_t i = 0; i < in.wanted.size(); ++i) {
      if (!ties.wanted[i]) continue;
      ++found;
      const TiedMark& mark = *ties.wanted[i];
      const auto& [a, b, c] = mark.ties;
      const Point3 base = mark_of(in, a.from);
      auto [one, other] =
          trilaterated(base, mark_of(in, b.from), mark_of(in, c.from), a.distance_m, b.distance_m, c.distance_m);
      if (dot(one - base, mark.normal) < 0) std::swap(one, other);
      // Squares of 30 m round to 1e-13 m2; a height of some decimetres is their root, and a slim triangle of the marks
      // (its dilution bounds it) costs as much again.
      expect_near(one, in.wanted[i], 1e-9);
      expect_near(other, mark.mirror, 1e-9);
      EXPECT_GT(mark.height_m, 0);
      EXPECT_LE(mark.dilution, in.greatest_dilution);
    }
  }
  EXPECT_GT(found, 300);
}

TEST(TieLaws, MirroringMirrorsAndScalingScales) {
  std::mt19937_64 draw(42);
  for (int trial = 0; trial < 100; ++trial) {
    const TieInputs in = random_site(draw);
    const auto changed = [&](const auto& place) {
      TieInputs out = in;
      for (Point3& p : out.known) p = place(p);
      for (Point3& p : out.wanted) p = place(p);
      auto& post = std::get<solids::Post>(out.obstacles[0]);
      post.from = place(post.from);
      post.to = place(post.to);
      auto& ground = std::get<solids::Plane>(out.obstacles[1]);
      ground.through = place(ground.through);
      return out;
    };
    const TieInputs mirrored = changed([](Point3 p) { return Point3{-p.x, p.y, p.z}; });
    TieInputs doubled = changed([](Point3 p) { return Point3{2 * p.x, 2 * p.y, 2 * p.z}; });
    std::get<solids::Post>(doubled.obstacles[0]).radius_m *= 2;
    for (double* length : {&doubled.longest_tape_m, &doubled.tape_error_m, &doubled.clear_by_m, &doubled.fitting_m})
      *length *= 2;
    const Ties plain = choose_ties(in), left = choose_ties(mirrored), large = choose_ties(doubled);
    EXPECT_EQ(plain.order, left.order);
    EXPECT_EQ(plain.order, large.order);
    for (std::size_t i = 0; i < in.wanted.size(); ++i) {
      if (!plain.wanted[i]) continue;
      const TiedMark &mark = *plain.wanted[i], &at_left = *left.wanted[i], &twice = *large.wanted[i];
      EXPECT_EQ(mark.ties, at_left.ties);
      EXPECT_EQ(mark.dilution, twice.dilution) << "twice is exact";
      for (std::size_t k = 0; k < 3; ++k) EXPECT_EQ(2 * mark.ties[k].distance_m, twice.ties[k].distance_m);
      expect_near(at_left.mirror, {-mark.mirror.x, mark.mirror.y, mark.mirror.z}, rounding * 100);
      expect_near(twice.mirror, {2 * mark.mirror.x, 2 * mark.mirror.y, 2 * mark.mirror.z}, rounding * 100);
      EXPECT_EQ(mark.check.has_value(), at_left.check.has_value());
    }
  }
}

}  // namespace
}  // namespace fairlead

// Points matched to the demo's marks and laid on them.
#include "geometry/asbuilt/placing.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <memory>
#include <numbers>

#include "geometry/asbuilt/draws.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

struct Demo {
  Rig rig = solve(demo_layout());
  std::vector<SetOutPoint> marks = set_out_points(rig);
};
const Demo& demo() {
  static const Demo it;
  return it;
}

/// The instrument's own frame, kilometres away.
Point3 seen(Point3 p, double turn_deg = 123) {
  const double c = std::cos(turn_deg * std::numbers::pi / 180), s = std::sin(turn_deg * std::numbers::pi / 180);
  return {c * p.x - s * p.y + 5120.4, s * p.x + c * p.y + 48210.7, p.z + 12.3};
}

std::vector<SurveyPoint> survey(const std::function<Point3(const SetOutPoint&)>& at) {
  std::vector<SurveyPoint> points;
  for (const SetOutPoint& mark : demo().marks)
    points.push_back({mark.id, at(mark), "", static_cast<unsigned>(points.size() + 1)});
  return points;
}

constexpr double u_m = 0.002;
const SurveyTerms on_four{{"P1", "P2", "B1", "unit"}, FitKind::levelled, u_m};
const SurveyTerms in_site{{}, FitKind::levelled, u_m};

tl::expected<Placing, PointsErrors> placed(const std::vector<SurveyPoint>& points, const SurveyTerms& terms) {
  return place_points(demo().rig.layout, demo().marks, points, terms);
}

std::string refused(const std::vector<SurveyPoint>& points, const SurveyTerms& terms) {
  const auto placing = placed(points, terms);
  if (placing) return "it is placed";
  std::string text;
  for (const PointsError& error : placing.error().first) text += error.message + "; " + error.instead + "\n";
  return text;
}

const PlacedPoint& point(const Placing& placing, const std::string& id) {
  for (const PlacedPoint& one : placing.points)
    if (one.id == id) return one;
  throw std::runtime_error("no point " + id);
}

// 123 degrees about the plumb line and 48 km: rounding of such coordinates is 7e-12 m, here a thousandfold.
TEST(Placing, FindsAMarkThat37MillimetresAreOffInAFrameThatIsTurnedAndFarAway) {
  const Vec3 off{-0.6 * 0.037, 0.8 * 0.037, 0};
  for (const double turn_deg : {0.0, 123.0, -90.0}) {
    const auto placing = placed(
        survey([&](const SetOutPoint& mark) { return seen(mark.id == "A3" ? *mark.at + off : *mark.at, turn_deg); }),
        on_four);
    ASSERT_TRUE(placing);
    EXPECT_EQ(placing->doubt, "");
    for (const PlacedPoint& one : placing->points)
      EXPECT_LT(norm(one.at - one.design - (one.id == "A3" ? off : Vec3{})), 1e-8) << one.id << ' ' << turn_deg;
  }
}

// Noise of the stated size: the moved mark is found within 1.96 of its own standard deviations in 95 of 100 surveys,
// each coordinate. 200 surveys give 190 +- 3.1; four and a half of that. Its deviation's spread is the point's own and
// the fit's, as draws of the very survey tell it.
TEST(Placing, WithNoiseItFindsTheMoveWithinTheStatedUncertaintyInTheStatedShare) {
  const Vec3 off{-0.6 * 0.037, 0.8 * 0.037, 0};
  const auto noisy = [&](std::uint64_t s) {
    std::uint64_t index = 0;
    return survey([&](const SetOutPoint& mark) {
      const Vec3 noise{standard_normal(99, s, index), standard_normal(99, s, index + 1),
                       standard_normal(99, s, index + 2)};
      index += 3;
      return seen(mark.id == "A3" ? *mark.at + off : *mark.at) + u_m * noise;
    });
  };
  // The standard uncertainty, by draws around the first survey.
  const auto first = placed(noisy(1000), on_four);
  ASSERT_TRUE(first);
  Vec3 square;
  constexpr int draws = 2000;
  for (std::uint64_t d = 0; d < draws; ++d) {
    std::vector<Vec3> errors;
    for (std::uint64_t p = 0; p < first->points.size(); ++p)
      errors.push_back(
          u_m * Vec3{standard_normal(4, d, 3 * p), standard_normal(4, d, 3 * p + 1), standard_normal(4, d, 3 * p + 2)});
    const Vec3 by = places(*first, errors)[2] - first->points[2].at;
    square += Vec3{by.x * by.x, by.y * by.y, by.z * by.z};
  }
  const Vec3 u{std::sqrt(square.x / draws), std::sqrt(square.y / draws), std::sqrt(square.z / draws)};
  EXPECT_GT(u.x, u_m);
  EXPECT_LT(u.x, 2 * u_m);
  int found_x = 0, found_y = 0, found_z = 0;
  for (std::uint64_t s = 0; s < 200; ++s) {
    const auto placing = placed(noisy(s), on_four);
    ASSERT_TRUE(placing);
    const PlacedPoint& a3 = point(*placing, "A3");
    const Vec3 error = a3.at - a3.design - off;
    found_x += std::abs(error.x) <= 1.96 * u.x ? 1 : 0;
    found_y += std::abs(error.y) <= 1.96 * u.y ? 1 : 0;
    found_z += std::abs(error.z) <= 1.96 * u.z ? 1 : 0;
  }
  for (const int found : {found_x, found_y, found_z}) EXPECT_NEAR(found, 190, 4.5 * 3.1);
}

TEST(Placing, AControlPointOffByAMetreIsNamedAndNoPlaceIsBelieved) {
  const auto points = survey([](const SetOutPoint& mark) {
    return seen(mark.id == "P2" ? *mark.at + Vec3{0.6, 0.8, 0} : *mark.at);
  });
  const auto placing = placed(points, {{"P1", "P2", "B1", "unit", "A3"}, FitKind::levelled, u_m});
  ASSERT_TRUE(placing);
  EXPECT_EQ(placing->doubt,
            "the control points do not agree within the stated uncertainty: \"P2\" is 1.000 m off the fit of the "
            "others: measure it again, or leave it out of --control");
  const auto two = placed(points, {{"P1", "P2"}, FitKind::levelled, u_m});
  ASSERT_TRUE(two);
  EXPECT_EQ(two->doubt,
            "the control points do not agree within the stated uncertainty: more than one of them is off, or the "
            "uncertainty is greater than stated");
}

TEST(Placing, SwappedAxesAndWrongUnitsAreRecognised) {
  // Marks of one line are the same in a mirror; a peg beside it is not.
  Layout pegged = demo().rig.layout;
  pegged.points.emplace();
  const Point3 peg{1340, 925, 326.1};
  pegged.points->pegs =
      std::make_shared<const std::vector<SurveyPoint>>(std::vector<SurveyPoint>{{"PEG1", peg, "", 1}});
  const auto swap = [](Point3 at) { return Point3{at.y, at.x, at.z}; };
  auto swapped = survey([&](const SetOutPoint& mark) { return swap(seen(*mark.at)); });
  swapped.push_back({"PEG1", swap(seen(peg)), "", 8});
  const auto mirrored = place_points(pegged, demo().marks, swapped, {{"P1", "P2", "PEG1"}, FitKind::levelled, u_m});
  ASSERT_FALSE(mirrored);
  EXPECT_NE(mirrored.error().first[0].message.find("are those of the layout in a mirror"), std::string::npos);
  EXPECT_EQ(mirrored.error().first[0].instead, "northing and easting are swapped: state the other --order");
  const auto in_line = placed(swapped, on_four);
  ASSERT_TRUE(in_line);
  EXPECT_FALSE(in_line->test->tells_mirror);
  swapped.clear();
  for (const SetOutPoint& mark : demo().marks) swapped.push_back({mark.id, seen(*mark.at), "", 1});
  swapped.push_back({"PEG1", seen(peg), "", 8});
  const auto right = place_points(pegged, demo().marks, swapped, {{"P1", "P2", "PEG1"}, FitKind::levelled, u_m});
  ASSERT_TRUE(right);
  EXPECT_TRUE(right->test->tells_mirror);
  const auto times = [](double by) {
    return survey([by](const SetOutPoint& mark) {
      const Point3 at = seen(*mark.at);
      return Point3{by * at.x, by * at.y, by * at.z};
    });
  };
  EXPECT_EQ(refused(times(1 / 0.3048), on_four),
            "the control points stand 3.281 times as far apart as in the layout: feet, taken for metres; state the "
            "file's --unit\n");
  EXPECT_EQ(refused(times(1000), on_four),
            "the control points stand 1000 times as far apart as in the layout: millimetres, taken for metres; state "
            "the file's --unit\n");
  const auto in_frame = [](double by, bool turned_over) {
    return survey([=](const SetOutPoint& mark) {
      const Point3 at = *mark.at;
      return turned_over ? Point3{at.y, at.x, at.z} : Point3{by * at.x, by * at.y, by * at.z};
    });
  };
  EXPECT_EQ(refused(in_frame(1, false), in_site), "it is placed");
  EXPECT_NE(refused(in_frame(1, true), in_site).find("state the other --order"), std::string::npos);
  EXPECT_NE(refused(in_frame(0.3048, false), in_site).find("metres, taken for feet"), std::string::npos);
  EXPECT_EQ(refused(survey([](const SetOutPoint& mark) { return seen(*mark.at); }), in_site),
            "every point is more than 10 m off where the layout has it; name control points with --control, to which "
            "the points are fitted\n");
}

TEST(Placing, ControlPointsMustBeThereOnceAndFixTheTurn) {
  auto points = survey([](const SetOutPoint& mark) { return seen(*mark.at); });
  points.push_back({"nail", {0, 0, 0}, "", 8});
  EXPECT_EQ(refused(points, {{"P1", "P3", "rest", "nail", "P1"}, FitKind::levelled, u_m}),
            "there is no control point \"P3\" in the file; name points of the file by their ids\n"
            "the rest mark, \"rest\", is no control point: it lies on a line that hangs; name pegs, or marks that "
            "stand\n"
            "the control point \"nail\" is neither a mark of the layout nor a peg of its points file; name points "
            "whose places the layout gives\n"
            "the control point \"P1\" is named twice; name it once\n");
  EXPECT_EQ(refused(points, {{"P1"}, FitKind::levelled, u_m}),
            "--control: a fit needs two control points; name more of the points that stand where the layout has "
            "them\n");
  EXPECT_EQ(refused(points, {{"A3", "R1"}, FitKind::levelled, u_m}),
            "--control: the control points stand plumb over one another; name more of the points that stand where the "
            "layout has them\n");
  EXPECT_EQ(refused({{"nail", {0, 0, 0}, "", 1}}, in_site),
            "no point of the file is a mark of the layout or a peg of its points file; give them the ids that fairlead "
            "setout lists: P1, P2, A3, B1, R1, unit, rest\n");
}

TEST(Placing, StrangersAndWhatIsMissingAreListed) {
  const auto placing = placed({{"P1", *demo().marks[0].at, "", 1}, {"nail", {0, 0, 0}, "", 2}}, in_site);
  ASSERT_TRUE(placing);
  EXPECT_EQ(placing->strangers, std::vector<std::string>{"nail"});
  EXPECT_EQ(placing->missing, (std::vector<std::string>{"P2", "A3", "B1", "R1", "unit", "rest"}));
}

}  // namespace
}  // namespace fairlead

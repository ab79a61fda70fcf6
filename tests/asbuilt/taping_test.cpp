// Marks placed by tapes from pegs, in whatever frame the pegs were shot; which hand a survey has.
#include "geometry/asbuilt/taping.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/asbuilt/draws.hpp"
#include "geometry/asbuilt/hand.hpp"
#include "tests/asbuilt/pegged_layout.hpp"

namespace fairlead {
namespace {

constexpr double u_m = 0.002, tape_m = 0.003;

struct Site {
  Rig rig = solve(pegged_layout());
  std::vector<SetOutPoint> marks = set_out_points(rig);
};
const Site& site() {
  static const Site it;
  return it;
}

const std::vector<SurveyPoint>& pegs() { return *site().rig.layout.points->pegs; }
Point3 drawn(std::string_view id) { return *std::ranges::find(site().marks, id, &SetOutPoint::id)->at; }

/// 37 mm to the left, where the portal was built.
const Vec3 off{-0.6 * 0.037, 0.8 * 0.037, 0};

/// The instrument's own frame, kilometres away.
Point3 seen(Point3 p, double turn_deg = 123) {
  const double c = std::cos(turn_deg * std::numbers::pi / 180), s = std::sin(turn_deg * std::numbers::pi / 180);
  return {c * p.x - s * p.y + 5120.4, s * p.x + c * p.y + 48210.7, p.z + 12.3};
}

std::vector<SurveyPoint> shot_pegs(const std::function<Vec3(std::size_t)>& error = nullptr) {
  std::vector<SurveyPoint> points;
  for (const SurveyPoint& peg : pegs())
    points.push_back(
        {peg.id, seen(peg.at) + (error ? error(points.size()) : Vec3{}), "", static_cast<unsigned>(points.size() + 1)});
  return points;
}

std::vector<SiteReading> tapes_to(const std::string& mark, Point3 is, std::size_t count = 5) {
  std::vector<SiteReading> readings;
  for (std::size_t i = 0; i < count; ++i)
    readings.push_back({pegs()[i].id, mark, NetworkReading::Kind::distance, norm(is - pegs()[i].at), tape_m,
                        static_cast<unsigned>(readings.size() + 2)});
  return readings;
}

const SurveyTerms on_pegs{{"N1", "N2", "N3", "N4", "N5"}, FitKind::levelled, u_m};

Placing placed(const std::vector<SurveyPoint>& points, const std::vector<SiteReading>& readings,
               const SurveyTerms& terms = on_pegs) {
  auto placing = place_points(site().rig.layout, site().marks, points, terms, readings);
  if (placing) return std::move(*placing);
  throw std::runtime_error(placing.error().first.at(0).message);
}

const PlacedPoint* point(const Placing& placing, std::string_view id) {
  const auto found = std::ranges::find(placing.points, id, &PlacedPoint::id);
  return found == placing.points.end() ? nullptr : &*found;
}

// As for points that are shot: rounding of 48 km, a thousandfold.
TEST(Taping, FindsAMarkThat37MillimetresAreOffByTapesFromPegsInAFrameThatIsTurnedAndFarAway) {
  const Placing placing = placed(shot_pegs(), tapes_to("A3", drawn("A3") + off));
  EXPECT_EQ(placing.doubt, "");
  const PlacedPoint* a3 = point(placing, "A3");
  ASSERT_TRUE(a3);
  EXPECT_LT(norm(a3->at - a3->design - off), 1e-8);
  EXPECT_FALSE(a3->shot);
  EXPECT_TRUE(a3->taped);
  EXPECT_EQ(a3->line, 2u);
  EXPECT_EQ(std::ranges::count(placing.missing, "A3"), 0);
  EXPECT_EQ(std::ranges::count(placing.missing, "R1"), 1);
}

// Noise of the stated sizes in points and tapes: found within 1.96 of its standard deviations, as draws of the very
// survey tell them, in 190 +- 3.1 of 200 surveys, each coordinate; four and a half of that.
TEST(Taping, WithNoiseItFindsTheMoveWithinTheStatedUncertaintyInTheStatedShare) {
  const auto noisy = [&](std::uint64_t s) {
    std::uint64_t index = 0;
    const auto normal = [&] { return standard_normal(17, s, index++); };
    const auto points = shot_pegs([&](std::size_t) { return u_m * Vec3{normal(), normal(), normal()}; });
    auto readings = tapes_to("A3", drawn("A3") + off);
    for (SiteReading& one : readings) one.value_m += tape_m * normal();
    return placed(points, readings);
  };
  const Placing first = noisy(1000);
  const auto a3 = static_cast<std::size_t>(point(first, "A3") - first.points.data());
  Vec3 square;
  constexpr int draws = 2000;
  for (std::uint64_t d = 0; d < draws; ++d) {
    std::vector<Vec3> normals;
    for (std::uint64_t p = 0; p < first.points.size(); ++p)
      normals.push_back(
          {standard_normal(4, d, 3 * p), standard_normal(4, d, 3 * p + 1), standard_normal(4, d, 3 * p + 2)});
    const Vec3 by = places(first, errors_m(first, normals))[a3] - first.points[a3].at;
    square += Vec3{by.x * by.x, by.y * by.y, by.z * by.z};
  }
  const Vec3 u{std::sqrt(square.x / draws), std::sqrt(square.y / draws), std::sqrt(square.z / draws)};
  int found_x = 0, found_y = 0, found_z = 0;
  for (std::uint64_t s = 0; s < 200; ++s) {
    const Placing placing = noisy(s);
    const PlacedPoint* mark = point(placing, "A3");
    ASSERT_TRUE(mark);
    const Vec3 error = mark->at - mark->design - off;
    found_x += std::abs(error.x) <= 1.96 * u.x ? 1 : 0;
    found_y += std::abs(error.y) <= 1.96 * u.y ? 1 : 0;
    found_z += std::abs(error.z) <= 1.96 * u.z ? 1 : 0;
  }
  for (const int found : {found_x, found_y, found_z}) EXPECT_NEAR(found, 190, 4.5 * 3.1);
}

TEST(Taping, AMarkWhoseTapesAllowTwoPlacesStaysMissing) {
  const Placing placing = placed(shot_pegs(), tapes_to("A3", drawn("A3"), 3));
  EXPECT_EQ(point(placing, "A3"), nullptr);
  EXPECT_EQ(std::ranges::count(placing.missing, "A3"), 1);
  EXPECT_EQ(placing.doubt, "");
  const auto& ids = placing.taping->ids;
  const auto a3 = static_cast<std::size_t>(std::ranges::find(ids, "A3") - ids.begin());
  EXPECT_TRUE(placing.taping->adjustment.open[a3].starts_with("two places ")) << placing.taping->adjustment.open[a3];
}

TEST(Taping, AMisreadTapeIsNamedAndNoPlaceIsBelieved) {
  auto readings = tapes_to("A3", drawn("A3"));
  readings[2].value_m += 0.25;
  EXPECT_EQ(worst_of(*placed(shot_pegs(), readings).taping), "the tape N3 to A3 or the point N3");
  // Another tape from that peg tells.
  for (SiteReading& one : tapes_to("R1", drawn("R1"))) readings.push_back(one);
  const Placing placing = placed(shot_pegs(), readings);
  EXPECT_TRUE(
      placing.doubt.starts_with("tapes, rises and points do not agree within the stated uncertainties: the tape "
                                "N3 to A3 is off the most, "))
      << placing.doubt;
}

TEST(Taping, ARiseIsRefusedInAFrameThatIsNotPlumb) {
  auto readings = tapes_to("A3", drawn("A3"), 3);
  readings.push_back({"N1", "A3", NetworkReading::Kind::rise, drawn("A3").z - 326.1, tape_m, 9});
  SurveyTerms tilted = on_pegs;
  tilted.kind = FitKind::tilted;
  EXPECT_THROW(placed(shot_pegs(), readings, tilted), std::runtime_error);
  EXPECT_TRUE(point(placed(shot_pegs(), readings), "A3"));
}

TEST(Taping, AnItemNamesTwoMarksOrIsToldHow) {
  const std::vector<std::string> known{"A3", "P1", "road to P1", "rest"};
  const auto told = [&](const char* item) {
    PointsErrors errors;
    const auto readings = site_readings({{{.item = item, .value = 3, .uncertainty = 1, .line = 2}, Measurand::distance},
                                         {{.item = "rest", .value = 1}, Measurand::rest}},
                                        known, errors);
    if (!readings.empty()) return readings[0].from + '|' + readings[0].to;
    std::string text;
    for (const PointsError& error : errors.first) text += error.message + "; " + error.instead + "\n";
    return text;
  };
  EXPECT_EQ(told("A3 to P1"), "A3|P1");
  EXPECT_EQ(told("road to P1 to A3"), "road to P1|A3");
  EXPECT_EQ(told("A3"),
            "a distance is read from one mark to another, and the item names one; write both like \"P1 to "
            "A3\"\n");
  EXPECT_EQ(told("A33 to nail"),
            "there is no mark or peg \"A33\"; did you mean \"A3\"?\n"
            "there is no mark or peg \"nail\"; write an id that fairlead setout lists\n");
  EXPECT_EQ(told("A3 to A3"), "the distance is read from \"A3\" to itself; name two marks\n");
}

// All of the demo's marks stand in one plumb plane.
TEST(Hand, ControlPointsInOnePlumbPlaneAreBelievedWhereABearingTellsTheHandAndNowhereElse) {
  const std::vector<Characteristic> all = characteristics(site().rig, {});
  const auto of = [&](std::string_view name) {
    return static_cast<int>(std::ranges::find(all, name, &Characteristic::name) - all.begin());
  };
  const auto points = [&](bool swapped) {
    std::vector<SurveyPoint> shot;
    for (const char* id : {"P1", "P2", "B1", "unit"}) {
      Point3 at = seen(drawn(id));
      if (swapped) std::swap(at.x, at.y);
      shot.push_back({id, at, "", static_cast<unsigned>(shot.size() + 1)});
    }
    return shot;
  };
  const SurveyTerms in_line{{"P1", "P2", "B1", "unit"}, FitKind::levelled, u_m};
  const auto pi = std::numbers::pi;
  const auto bearing = [&](std::string_view name, Vec3 way) {
    const double turn = 123 * pi / 180;
    const Vec3 is{std::cos(turn) * way.x - std::sin(turn) * way.y, std::sin(turn) * way.x + std::cos(turn) * way.y, 0};
    return MeasuredValue{of(name), 1, {std::atan2(is.x, is.y), 0}, {0.01, 0.01}};
  };
  const MeasuredValue outlet = bearing("axis of brake_unit", {-0.8, -0.6, 0}),
                      axle = bearing("axle of R1", {-0.6, 0.8, 0});
  const Placing right = placed(points(false), {}, in_line), wrong = placed(points(true), {}, in_line);
  EXPECT_FALSE(right.hand_told);
  EXPECT_EQ(right.doubt, "");
  EXPECT_EQ(wrong.doubt, "") << "the fit alone does not notice";
  EXPECT_NE(hand_in_doubt(right, all, {}), "");
  EXPECT_NE(hand_in_doubt(wrong, all, {}), "");
  EXPECT_EQ(hand_in_doubt(right, all, {outlet}), "");
  EXPECT_EQ(hand_in_doubt(right, all, {outlet, axle}), "");
  EXPECT_NE(hand_in_doubt(wrong, all, {outlet}), "");
  EXPECT_NE(hand_in_doubt(wrong, all, {outlet, axle}), "");
  EXPECT_TRUE(hand_in_doubt(right, all, {}).starts_with("the control points stand in one plumb plane: "));
  // About any axis three points lie on their mirror image once they are turned over, wherever they stand.
  const Placing tilted = placed(shot_pegs(), {}, {{"N1", "N2", "N3"}, FitKind::tilted, u_m});
  EXPECT_FALSE(tilted.hand_told);
  EXPECT_TRUE(hand_in_doubt(tilted, all, {}).starts_with("the control points stand in one plane: "));
  EXPECT_TRUE(placed(shot_pegs(), {}, {{"N1", "N2", "N3", "N4", "N5"}, FitKind::tilted, u_m}).hand_told);
  // A peg that stands aside tells by itself.
  std::vector<SurveyPoint> aside = points(false);
  aside.push_back({"N1", seen(pegs()[0].at), "", 5});
  const Placing told = placed(aside, {}, {{"P1", "P2", "B1", "unit", "N1"}, FitKind::levelled, u_m});
  EXPECT_TRUE(told.hand_told);
  EXPECT_EQ(hand_in_doubt(told, all, {}), "");
}

// In a frame of its own datum a rig near the line north = east lies on itself swapped.
TEST(Hand, InTheSiteFrameTheOneThatFitsBetterIsTakenAndWhereNeitherDoesNoneIs) {
  Layout layout = demo_layout();
  for (Anchor& anchor : layout.anchors) anchor.position.value = anchor.position.value - Vec3{1345, 910, 0};
  std::vector<SetOutPoint> marks = site().marks;
  for (SetOutPoint& mark : marks) mark.at = *mark.at - Vec3{1345, 910, 0};
  const auto survey = [&](bool swapped, const std::vector<SetOutPoint>& of) {
    std::vector<SurveyPoint> points;
    for (const SetOutPoint& mark : of) {
      Point3 at = *mark.at;
      if (swapped) std::swap(at.x, at.y);
      points.push_back({mark.id, at, "", static_cast<unsigned>(points.size() + 1)});
    }
    return points;
  };
  std::vector<SetOutPoint> near;
  for (const SetOutPoint& mark : marks)
    if (norm(*mark.at - Point3{0, 0, mark.at->z}) < 12) near.push_back(mark);
  const SurveyTerms in_site{{}, FitKind::levelled, u_m};
  EXPECT_TRUE(place_points(layout, marks, survey(false, near), in_site)->hand_told);
  const auto refused = place_points(layout, marks, survey(true, near), in_site);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().first[0].instead, "state the other --order");
  for (SetOutPoint& mark : near) mark.at->y = mark.at->x + 0.02;
  const auto open = place_points(layout, near, survey(true, near), in_site);
  ASSERT_TRUE(open);
  EXPECT_FALSE(open->hand_told);
  EXPECT_NE(hand_in_doubt(*open, {}, {}), "");
}

}  // namespace
}  // namespace fairlead

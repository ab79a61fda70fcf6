// Tapes alone: marks placed from control marks that nobody measured, what shows that one of them moved, and what
// passes.
#include "geometry/asbuilt/held.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "geometry/asbuilt/as_built.hpp"
#include "tests/asbuilt/pegged_layout.hpp"

namespace fairlead {
namespace {

constexpr double tape_m = 0.003;
const Vec3 off{-0.6 * 0.037, 0.8 * 0.037, 0};

using Moved = std::function<Point3(Point3)>;

struct Site {
  Layout layout = pegged_layout();
  std::vector<SetOutPoint> marks = set_out_points(solve(layout));
};
const Site& site() {
  static const Site it;
  return it;
}

/// The site with all of it somewhere else.
Site site_at(const Moved& moved) {
  Site there = site();
  std::vector<SurveyPoint> pegs = *there.layout.points->pegs;
  for (SurveyPoint& peg : pegs) peg.at = moved(peg.at);
  there.layout.points->pegs = std::make_shared<const std::vector<SurveyPoint>>(pegs);
  for (SetOutPoint& mark : there.marks)
    if (mark.at) mark.at = moved(*mark.at);
  return there;
}

Point3 drawn(std::string_view id, const Site& of = site()) {
  const auto mark = std::ranges::find(of.marks, id, &SetOutPoint::id);
  return mark != of.marks.end() ? *mark->at : std::ranges::find(*of.layout.points->pegs, id, &SurveyPoint::id)->at;
}

const std::vector<std::string> pegs{"N1", "N2", "N3", "N4", "N5"};
SurveyTerms held_on(std::vector<std::string> control) { return {.control = std::move(control), .tapes_alone = true}; }

SiteReading tape(const std::string& from, const std::string& to, double length_m, unsigned line = 2) {
  return {from, to, NetworkReading::Kind::distance, length_m, tape_m, line};
}

/// From the pegs to a mark where it is.
std::vector<SiteReading> tapes_to(const std::string& mark, Point3 is, std::size_t count = 5, const Site& of = site()) {
  std::vector<SiteReading> readings;
  for (std::size_t i = 0; i < count; ++i)
    readings.push_back(tape(pegs[i], mark, norm(is - drawn(pegs[i], of)), static_cast<unsigned>(i + 2)));
  return readings;
}

Placing placed(const std::vector<SiteReading>& readings, const SurveyTerms& terms = held_on(pegs),
               const Site& of = site()) {
  auto placing = place_points(of.layout, of.marks, {}, terms, readings);
  if (placing) return std::move(*placing);
  throw std::runtime_error(placing.error().first.at(0).message);
}

std::string refused(const std::vector<SiteReading>& readings, const SurveyTerms& terms) {
  const auto placing = place_points(site().layout, site().marks, {}, terms, readings);
  std::string text;
  if (!placing)
    for (const PointsError& error : placing.error().first) text += error.message + "; " + error.instead + "\n";
  return text;
}

const PlacedPoint* point(const Placing& placing, std::string_view id) {
  const auto found = std::ranges::find(placing.points, id, &PlacedPoint::id);
  return found == placing.points.end() ? nullptr : &*found;
}

std::string why_open(const Placing& placing, std::string_view id) {
  const auto p = static_cast<std::size_t>(std::ranges::find(placing.taping->ids, id) - placing.taping->ids.begin());
  return placing.taping->adjustment.open.at(p);
}

// Exact tapes: what is left is where the iteration stops, 1e-9 m, over tapes that cross at 20 deg or more.
TEST(TapesAlone, PlaceAMarkFromControlMarksThatStayWhereTheLayoutHasThem) {
  const Placing placing = placed(tapes_to("A3", drawn("A3") + off));
  EXPECT_EQ(placing.doubt, "");
  EXPECT_FALSE(placing.fit);
  const PlacedPoint* a3 = point(placing, "A3");
  ASSERT_TRUE(a3);
  EXPECT_LT(norm(a3->at - a3->design - off), 1e-8);
  EXPECT_TRUE(a3->taped);
  EXPECT_FALSE(a3->held);
  for (const std::string& id : pegs) {
    const PlacedPoint* peg = point(placing, id);
    ASSERT_TRUE(peg);
    EXPECT_TRUE(peg->held && !peg->shot && !peg->taped && peg->control);
    EXPECT_EQ(peg->at, drawn(id));
    EXPECT_EQ(std::ranges::count(placing.missing, id), 0);
  }
  EXPECT_EQ(std::ranges::count(placing.missing, "A3"), 0);
  EXPECT_EQ(std::ranges::count(placing.missing, "R1"), 1);
}

// SPHERES: two tapes and a side, with the two lower pegs and the one above; of three tapes the rise tells the side.
TEST(TapesAlone, ThreeTapesAndARiseGiveThePlaceThatThreeSpheresShare) {
  const Point3 is = drawn("A3") + off, a = drawn("N1"), b = drawn("N2"), c = drawn("N5");
  std::vector<SiteReading> readings;
  for (const char* id : {"N1", "N2", "N5"}) readings.push_back(tape(id, "A3", norm(is - drawn(id))));
  EXPECT_TRUE(why_open(placed(readings, held_on({"N1", "N2", "N5"})), "A3").starts_with("two places "));
  readings.push_back({"N1", "A3", NetworkReading::Kind::rise, is.z - a.z, tape_m, 9});
  const Placing placing = placed(readings, held_on({"N1", "N2", "N5"}));
  const PlacedPoint* a3 = point(placing, "A3");
  ASSERT_TRUE(a3) << why_open(placing, "A3");
  const Vec3 ex = unit(b - a);
  const double i = dot(ex, c - a), d = norm(b - a);
  const Vec3 ey = unit(c - a - i * ex), ez = cross(ex, ey);
  const double j = dot(ey, c - a), r1 = norm(is - a), r2 = norm(is - b), r3 = norm(is - c);
  const double x = (r1 * r1 - r2 * r2 + d * d) / (2 * d);
  const double y = (r1 * r1 - r3 * r3 + i * i + j * j) / (2 * j) - i / j * x;
  const double z = std::sqrt(r1 * r1 - x * x - y * y);
  const Point3 one = a + x * ex + y * ey + z * ez, other = a + x * ex + y * ey - z * ez;
  EXPECT_LT(std::min(norm(a3->at - one), norm(a3->at - other)), 1e-8);
}

// Turned about the plumb line, or in a mirror, and kilometres away: the same figure there. Rounding of 50 km.
TEST(TapesAlone, WhereTheControlMarksGoAllElseGoesAndInAMirrorItIsMirrored) {
  const double c = std::cos(2.1), s = std::sin(2.1);
  const Moved moves[] = {[&](Point3 p) {
                           return Point3{c * p.x - s * p.y + 5120, s * p.x + c * p.y + 48210, p.z + 12};
                         },
                         [](Point3 p) {
                           return Point3{-p.x, p.y, p.z};
                         }};
  auto readings = tapes_to("A3", drawn("A3") + off);
  for (std::size_t r = 0; r < readings.size(); ++r) readings[r].value_m += (r % 2 == 0 ? 1 : -1) * 0.002;
  const Point3 here = point(placed(readings), "A3")->at;
  for (const Moved& moved : moves) {
    const Site there = site_at(moved);
    EXPECT_LT(norm(point(placed(readings, held_on(pegs), there), "A3")->at - moved(here)), 1e-8);
  }
}

// Within 1.96 deviations as told in 190 +- 3.1 of 200 surveys, each coordinate; four and a half of that.
TEST(TapesAlone, WithNoiseTheyFindTheMarkWithinTheStatedUncertaintyInTheStatedShare) {
  int found[] = {0, 0, 0};
  for (std::uint64_t survey = 0; survey < 200; ++survey) {
    auto readings = tapes_to("A3", drawn("A3") + off);
    std::uint64_t index = 0;
    for (SiteReading& one : readings) one.value_m += tape_m * standard_normal(23, survey, index++);
    const Placing placing = placed(readings);
    const auto a3 = static_cast<std::size_t>(point(placing, "A3") - placing.points.data());
    const Vec3 error = placing.points[a3].at - placing.points[a3].design - off;
    const double by[] = {error.x, error.y, error.z};
    double square_m2[] = {0, 0, 0};
    for (std::size_t p = 0; p < placing.points.size(); ++p)
      for (const Vec3 one : {Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}}) {
        std::vector<Vec3> normals(placing.points.size());
        normals[p] = one;
        const std::vector<Vec3> moved = errors_m(placing, normals);
        for (std::size_t held = 0; held < pegs.size(); ++held)
          ASSERT_EQ(norm(moved[held]), 0) << "what is held has none";
        square_m2[0] += moved[a3].x * moved[a3].x;
        square_m2[1] += moved[a3].y * moved[a3].y;
        square_m2[2] += moved[a3].z * moved[a3].z;
      }
    for (std::size_t axis = 0; axis < 3; ++axis) found[axis] += std::abs(by[axis]) <= 1.96 * std::sqrt(square_m2[axis]);
  }
  for (const int one : found) EXPECT_NEAR(one, 190, 4.5 * 3.1);
}

TEST(TapesAlone, WhatTheyLeaveOpenStaysUnmeasured) {
  const Placing two = placed(tapes_to("A3", drawn("A3"), 2));
  EXPECT_EQ(point(two, "A3"), nullptr);
  EXPECT_TRUE(why_open(two, "A3").starts_with("its readings leave it free to move")) << why_open(two, "A3");
  const Placing three = placed(tapes_to("A3", drawn("A3"), 3));
  EXPECT_EQ(point(three, "A3"), nullptr);
  EXPECT_TRUE(why_open(three, "A3").starts_with("two places ")) << why_open(three, "A3");
  EXPECT_EQ(std::ranges::count(three.missing, "A3"), 1);
}

TEST(TapesAlone, AMisreadTapeIsNamedAndSoIsAControlMarkThatMoved) {
  auto readings = tapes_to("A3", drawn("A3"));
  for (const SiteReading& one : tapes_to("R1", drawn("R1"))) readings.push_back(one);
  std::vector<SiteReading> misread = readings;
  misread[2].value_m += 0.25;
  EXPECT_TRUE(
      placed(misread).doubt.starts_with("tapes, rises and the control marks as drawn do not agree within the "
                                        "stated uncertainties: the tape N3 to A3 is off the most, "))
      << placed(misread).doubt;
  // N2 was knocked 60 mm: every tape to it tells, and the others among themselves do not.
  readings.push_back(tape("N1", "N2", 0));
  readings.push_back(tape("N2", "N3", 0));
  readings.push_back(tape("N2", "N4", 0));
  const auto at = [](const std::string& id) { return drawn(id) + (id == "N2" ? Vec3{0.04, 0.04, 0.02} : Vec3{}); };
  for (SiteReading& one : readings) one.value_m = norm(at(one.to) - at(one.from));
  const std::string doubt = placed(readings).doubt;
  EXPECT_NE(doubt.find("that N2, held as drawn, stands elsewhere would explain it as well"), std::string::npos)
      << doubt;
  std::vector<std::string> others = pegs;
  std::erase(others, "N2");
  const Placing without = placed(readings, held_on(others));
  EXPECT_EQ(without.doubt, "");
  EXPECT_LT(norm(point(without, "N2")->at - at("N2")), 1e-8);
}

TEST(TapesAlone, WhatFixesNothingIsRefusedWithWhatToName) {
  const auto readings = tapes_to("A3", drawn("A3"));
  EXPECT_EQ(refused(readings, held_on({})),
            "--control names no marks, and tapes alone need three that did not move; name marks that stand where the "
            "layout has them, not in one line: supports, anchors, pegs\n");
  EXPECT_TRUE(refused(readings, held_on({"N1", "N2"})).starts_with("--control names 2 marks, and tapes alone need "));
  EXPECT_EQ(refused(readings, held_on({"N1", "N11", "N1", "rest"})),
            "--control: there is no mark or peg \"N11\"; did you mean \"N1\"?\n"
            "--control: \"N1\" is named twice; name it once\n"
            "--control: the rest mark, \"rest\", is no control mark: it lies on a line that hangs; name pegs, or marks "
            "that stand\n");
  EXPECT_EQ(refused({}, held_on(pegs)),
            "nothing is read from mark to mark, and no point was shot; tape distances and level rises from the control "
            "marks to the others: item \"P1 to A3\"\n");
  auto feet = readings;
  for (SiteReading& one : feet) one.value_m /= 0.3048;
  EXPECT_EQ(refused(feet, held_on(pegs)),
            "the tapes are 3.281 times as long as the layout has them: feet, taken for metres; state the unit in which "
            "each was read\n");
}

TEST(TapesAlone, ControlMarksInOneLineAreRefused) {
  Site in_line = site();
  std::vector<SurveyPoint> row = *in_line.layout.points->pegs;
  for (std::size_t i = 0; i < row.size(); ++i)
    row[i].at = Point3{1340, 900, 326} + static_cast<double>(i) * Vec3{3, 4, 1};
  in_line.layout.points->pegs = std::make_shared<const std::vector<SurveyPoint>>(row);
  const auto placing = place_points(in_line.layout, in_line.marks, {}, held_on(pegs), tapes_to("A3", drawn("A3")));
  ASSERT_FALSE(placing);
  EXPECT_EQ(placing.error().first.at(0).message,
            "--control: the marks stand in one line, and whatever is taped from them may turn about it");
}

Survey taped(const std::vector<std::string>& control, const std::vector<std::string>& left_out = {}) {
  Survey survey{.measurements_file = "tapes.csv", .terms = held_on(control)};
  unsigned line = 2;
  const auto add = [&](const std::string& item, Measurand measurand, double value, double uncertainty) {
    survey.measurements.push_back(
        {{.item = item, .value = value, .uncertainty = uncertainty, .line = line++}, measurand});
  };
  for (const SetOutPoint& mark : site().marks)
    if (std::ranges::find(left_out, mark.id) == left_out.end() && mark.mark != Mark::rest_mark)
      for (const std::string& peg : pegs)
        add(peg + " to " + mark.id, Measurand::distance, norm(*mark.at - drawn(peg)), 1e-4);
  add("brake_trolley", Measurand::rest, site().layout.brake_trolley.rest_m, 1e-4);
  add("main_line", Measurand::tension, 18e3, 10);
  add("main_line", Measurand::temperature, 273.15 + 12, 0.1);
  add("R1", Measurand::bearing, std::atan2(0.6, -0.8), 1e-4);
  add("R1", Measurand::tilt, 0, 1e-4);
  add("brake_unit", Measurand::bearing, std::atan2(-0.8, -0.6) + 2 * std::numbers::pi, 1e-4);
  add("brake_unit", Measurand::tilt, std::atan2(-0.11, 1), 1e-4);
  add("brake_unit", Measurand::rest_extension, 0.4, 1e-3);
  return survey;
}

AsBuilt built(Survey survey) {
  auto result =
      as_built(pegged_layout(), std::move(survey), {.draws = fewest_draws, .hold_arrest = true}, {.threads = 2});
  if (result) return std::move(*result);
  throw std::runtime_error(result.error().measurements.first.at(0).message);
}

std::size_t characteristic(const AsBuilt& of, std::string_view name) {
  return static_cast<std::size_t>(std::ranges::find(of.characteristics, name, &Characteristic::name) -
                                  of.characteristics.begin());
}

/// Of the first finding of a check.
std::size_t finding(const AsBuilt& of, std::string_view check) {
  return static_cast<std::size_t>(
      std::ranges::find_if(of.built.findings, [&](const Finding& one) { return one.check->name == check; }) -
      of.built.findings.begin());
}

TEST(TapesAlone, AFindingMayPassOnAHeldSupportThatReadingsReachAndIsToldToRestOnIt) {
  const AsBuilt held = built(taped({"P1", "N1", "N2", "N3", "N4", "N5"}));
  const std::size_t p1 = characteristic(held, "place of P1"), f = finding(held, "fleet-angle");
  EXPECT_FALSE(held.measured.at(p1));
  EXPECT_TRUE(held.held.at(p1));
  EXPECT_EQ(held.built.findings.at(f).verdict, Verdict::pass) << held.built.findings.at(f).why;
  EXPECT_EQ(held.basis.at(f).held, std::vector<int>{static_cast<int>(p1)});
  EXPECT_EQ(held.basis.at(f).unmeasured, std::vector<int>{});
}

TEST(TapesAlone, NoFindingPassesOnASupportThatNoReadingReachesWhetherItIsHeldOrLeftOut) {
  for (const auto& control : {std::vector<std::string>{"P1", "N1", "N2", "N3", "N4", "N5"}, pegs}) {
    const AsBuilt it = built(taped(control, {"P1"}));
    const std::size_t p1 = characteristic(it, "place of P1"), f = finding(it, "fleet-angle");
    EXPECT_FALSE(it.measured.at(p1) || it.held.at(p1)) << control.front();
    EXPECT_EQ(it.built.findings.at(f).verdict, Verdict::undetermined) << control.front();
    EXPECT_EQ(it.basis.at(f).unmeasured, std::vector<int>{static_cast<int>(p1)}) << control.front();
    EXPECT_EQ(it.basis.at(f).held, std::vector<int>{}) << control.front();
  }
}

TEST(TapesAlone, WhereTheTapesDoNotAgreeWhatIsHeldIsNotBelievedEither) {
  Survey survey = taped({"P1", "N1", "N2", "N3", "N4", "N5"});
  survey.measurements[1].value += 0.2;
  const AsBuilt it = built(std::move(survey));
  EXPECT_NE(it.placing.doubt, "");
  EXPECT_EQ(std::ranges::count(it.held, 1), 0);
  EXPECT_EQ(it.built.findings.at(finding(it, "fleet-angle")).verdict, Verdict::undetermined);
}

}  // namespace
}  // namespace fairlead

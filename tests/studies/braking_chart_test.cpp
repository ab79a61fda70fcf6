// Stopping travel over arrival speed, against the corners the arrest solved.
#include "geometry/studies/braking_chart.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Rig& demo() {
  static const Rig rig = solve(demo_layout());
  return rig;
}
const BrakingChart& chart() {
  static const BrakingChart of_demo = braking_chart(demo()).value();
  return of_demo;
}

const BrakingChart::Point& at(const BrakingChart::Curve& curve, double speed_m_per_s) {
  for (const BrakingChart::Point& point : curve.points)
    if (point.speed_m_per_s == speed_m_per_s) return point;
  throw std::runtime_error("no point of that speed");
}

TEST(BrakingChart, GoesThroughTheCornersThatGovern) {
  const arrest::Arrest& arrest = *demo().arrest.solved();
  ASSERT_EQ(chart().corner, arrest.governing.stop_travel);
  const arrest::CornerResult& governing = arrest.corners[static_cast<std::size_t>(chart().corner)];
  ASSERT_TRUE(governing.corner.heaviest && governing.corner.fastest);
  const BrakingChart::Point& point = at(chart().curves.back(), governing.arrival_speed_m_per_s);
  EXPECT_EQ(point.outcome, governing.motion->outcome);
  EXPECT_EQ(point.stop_travel_m, governing.motion->stop_travel_m);
  // Also the lightest, slowest of the same weather and brake.
  const mainline::MainLine& main_line = *demo().main_line.solved();
  const auto state = [&](int path) { return main_line.paths[static_cast<std::size_t>(path)].state; };
  int seen = 0;
  for (const arrest::CornerResult& result : arrest.corners) {
    arrest::Corner same = governing.corner;
    same.heaviest = same.fastest = false;
    same.path = result.corner.path;
    if (result.corner != same || state(result.corner.path) != state(governing.corner.path)) continue;
    ++seen;
    EXPECT_EQ(at(chart().curves.front(), result.arrival_speed_m_per_s).outcome, result.motion->outcome);
    // Its approach accelerates otherwise than the faster one's, so it leans otherwise by some thousandths.
    EXPECT_NEAR(at(chart().curves.front(), result.arrival_speed_m_per_s).stop_travel_m, result.motion->stop_travel_m,
                5e-3);
  }
  EXPECT_EQ(seen, 1);
}

// The whole rig solved for a rider range that ends at that mass. Tolerance: half a printed millimetre.
TEST(BrakingChart, AMassBetweenStopsWhereARigMadeForItWouldStopIt) {
  const BrakingChart::Curve& middle = chart().curves[2];
  const std::string range = fmt::format("[\"{} kg\", \"{} kg\"]", chart().curves.front().rider_kg, middle.rider_kg);
  const Rig lighter = solve(demo_layout({{"riders.mass", range}}));
  const arrest::CornerResult& corner = lighter.arrest.solved()->corners[static_cast<std::size_t>(chart().corner)];
  ASSERT_EQ(corner.corner, demo().arrest.solved()->corners[static_cast<std::size_t>(chart().corner)].corner);
  ASSERT_TRUE(at(middle, corner.arrival_speed_m_per_s).stops());
  EXPECT_NEAR(at(middle, corner.arrival_speed_m_per_s).stop_travel_m, corner.motion->stop_travel_m, 5e-4);
}

TEST(BrakingChart, FasterAndHeavierRidersComeFarther) {
  ASSERT_EQ(chart().curves.size(), 5u);
  for (const BrakingChart::Curve& curve : chart().curves)
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
      EXPECT_GT(curve.points[i].speed_m_per_s, curve.points[i - 1].speed_m_per_s);
      if (curve.points[i].stops() && curve.points[i - 1].stops()) {
        EXPECT_GT(curve.points[i].stop_travel_m, curve.points[i - 1].stop_travel_m);
      }
    }
  for (std::size_t m = 1; m < chart().curves.size(); ++m) {
    const double slowest = chart().arrival_m_per_s.low;
    EXPECT_GT(chart().curves[m].rider_kg, chart().curves[m - 1].rider_kg);
    EXPECT_GT(at(chart().curves[m], slowest).stop_travel_m, at(chart().curves[m - 1], slowest).stop_travel_m);
  }
}

TEST(BrakingChart, ChangesOfTheOutcomeAreFoundToTheStatedStep) {
  const Rig rig = solve(demo_layout({{"brake_trolley.travel", "\"9 m\""}}));
  const auto short_one = braking_chart(rig);
  ASSERT_TRUE(short_one) << short_one.error().why;
  int changes = 0;
  for (const BrakingChart::Curve& curve : short_one->curves)
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
      const BrakingChart::Point &a = curve.points[i - 1], &b = curve.points[i];
      if (a.outcome == b.outcome) continue;
      ++changes;
      EXPECT_LE(b.speed_m_per_s - a.speed_m_per_s, BrakingChart::speed_step_m_per_s);
    }
  EXPECT_GT(changes, 0);
}

TEST(BrakingChart, ReachesBeyondEveryArrivalThatWasMeasured) {
  const mainline::Span without = chart().speed_m_per_s;
  const mainline::Span measured{0.7 * without.low, 1.1 * without.high};
  const BrakingChart wider = braking_chart(demo(), {}, measured).value();
  EXPECT_LT(wider.speed_m_per_s.low, measured.low);
  EXPECT_GT(wider.speed_m_per_s.high, measured.high);
  for (std::size_t m = 0; m < wider.curves.size(); ++m) {
    EXPECT_EQ(wider.curves[m].points.front().speed_m_per_s, wider.speed_m_per_s.low);
    // Between the arrivals it is the same curve.
    EXPECT_EQ(at(wider.curves[m], chart().arrival_m_per_s.low).stop_travel_m,
              at(chart().curves[m], chart().arrival_m_per_s.low).stop_travel_m);
    double farthest = 0;
    for (std::size_t i = 1; i < wider.curves[m].points.size(); ++i)
      farthest =
          std::max(farthest, wider.curves[m].points[i].speed_m_per_s - wider.curves[m].points[i - 1].speed_m_per_s);
    EXPECT_LE(farthest, (without.high - without.low) / 8 * (1 + 1e-9)) << "no coarser than the chart without tests";
  }
  const BrakingChart same = braking_chart(demo(), {}, chart().arrival_m_per_s).value();
  EXPECT_EQ(same.speed_m_per_s.low, without.low) << "what lies within moves nothing";
}

TEST(BrakingChart, IsTheSameOnAnyNumberOfThreads) {
  const BrakingChart two = braking_chart(demo(), {.threads = 2}).value();
  for (std::size_t m = 0; m < two.curves.size(); ++m)
    for (std::size_t i = 0; i < two.curves[m].points.size(); ++i)
      EXPECT_EQ(two.curves[m].points[i].stop_travel_m, chart().curves[m].points[i].stop_travel_m);
}

TEST(BrakingChart, ThereIsNoneWithoutAnArrest) {
  Layout layout = demo_layout();
  layout.riders.drag_area_m2.reset();
  EXPECT_FALSE(braking_chart(solve(layout)));
}

}  // namespace
}  // namespace fairlead

// How far one number may be off: closed forms of single legs, and laws.
#include "geometry/studies/windows.hpp"

#include <gtest/gtest.h>

#include <numbers>

#include "tests/demo_layout.hpp"
#include "tests/mounted_layouts.hpp"
#include "tests/studies/new_finding.hpp"

namespace fairlead {
namespace {

constexpr double fine_m = 1e-3;  // Search::fine: what is told of a short window

struct Found {
  Judged design;
  std::vector<SetOutPoint> points;
  Windows windows;

  const Window& of(const std::string& name) const {
    for (std::size_t v = 0; v < windows.variables.size(); ++v)
      if (windows.variables[v].name == name) return windows.windows[v];
    throw std::runtime_error("no window " + name);
  }
};

Found found(const Layout& layout, const std::vector<std::string>& names, unsigned threads = 1) {
  Found out{judge(layout), {}, {}};
  out.points = set_out_points(out.design.rig);
  std::vector<Variable> wanted;
  for (Variable& variable : variables_of(out.points, point_axes(out.points), out.design.rig.frame))
    if (names.empty() || std::ranges::find(names, variable.name) != names.end()) wanted.push_back(std::move(variable));
  out.windows = windows(HeldFindings(out.design), std::move(wanted), {}, {.threads = threads});
  return out;
}

/// A window ends at a closed form: the amount that holds is short of it by no more than the search is fine.
void expect_end(const Reach& reach, double at_m, std::string_view check) {
  ASSERT_TRUE(reach.first.has_value());
  EXPECT_EQ(reach.first->check->name, check);
  EXPECT_LE(reach.holds, at_m);
  EXPECT_GE(*reach.fails, at_m);
  EXPECT_LE(*reach.fails - reach.holds, std::max(fine_m, 0.02 * at_m) * (1 + 1e-9));
}

// Own definition: the sheave's contact may stand 50 mm off the main line's plane, and as drawn it stands on it.
TEST(Windows, OfASheaveAcrossIsTheLimitOfItsOffset) {
  const Window window = found(demo_layout(), {"R1 across"}).of("R1 across");
  expect_end(window.less, 0.050, "across-offset");
  expect_end(window.more, 0.050, "across-offset");
}

// Own computation: with the limit of the offset away, the leg from the sheave to the unit's outlet leans by
// atan(across / distance), so that a fleet angle of a limit L is reached at distance tan L. The line leaves its groove
// at the contact, which lies within a radius of the centre; the leg's own weight hangs in the groove's plane.
TEST(Windows, OfTheUnitAcrossIsTheDistanceTimesTheTangentOfTheFleetAnglesLimit) {
  const double limit_rad = 0.3 * std::numbers::pi / 180;
  const Layout layout = demo_layout({{"sheave.R1.fleet_angle.at", "\"0.3 deg\""},
                                     {"limits.across_offset.at", "\"5 m\""},
                                     {"limits.plane_thickness.at", "\"5 m\""}});
  const Found here = found(layout, {"unit across"});
  const Rig& rig = here.design.rig;
  const double centre_to_outlet_m =
      dot(layout.brake_unit.outlet.value - layout.sheaves[0].position->value, rig.frame.along);
  const double radius_m = layout.sheaves[0].pitch_diameter_m / 2;
  for (const Reach& reach : {here.of("unit across").less, here.of("unit across").more}) {
    ASSERT_TRUE(reach.first.has_value());
    EXPECT_EQ(reach.first->check->name, "fleet-angle");
    EXPECT_LE(reach.holds, (centre_to_outlet_m + radius_m) * std::tan(limit_rad));
    EXPECT_GE(*reach.fails, (centre_to_outlet_m - radius_m) * std::tan(limit_rad));
    EXPECT_LE(*reach.fails - reach.holds, std::max(fine_m, 0.02 * reach.holds) * (1 + 1e-9));
  }
}

TEST(Windows, HoldAtTheirEndAndNotBeyond) {
  const Found here = found(demo_layout(), {"R1 up", "P2 up", "R1 across"});
  const HeldFindings held(here.design);
  for (std::size_t v = 0; v < here.windows.variables.size(); ++v)
    for (const bool more : {false, true}) {
      const Reach& reach = more ? here.windows.windows[v].more : here.windows.windows[v].less;
      const auto at = [&](double amount) {
        Layout layout = here.design.rig.layout;
        here.windows.variables[v].shift(layout, more ? amount : -amount);
        return held.at(std::move(layout), {}).holds;
      };
      EXPECT_TRUE(at(reach.holds)) << here.windows.variables[v].name;
      ASSERT_TRUE(reach.fails.has_value()) << here.windows.variables[v].name;
      EXPECT_FALSE(at(*reach.fails)) << here.windows.variables[v].name;
    }
}

TEST(Windows, AreTheSameOnAnyNumberOfThreads) {
  const std::vector<std::string> names{"R1 along", "R1 across", "P2 up"};
  const Found one = found(demo_layout(), names, 1), three = found(demo_layout(), names, 3);
  for (std::size_t v = 0; v < one.windows.windows.size(); ++v) {
    EXPECT_EQ(one.windows.windows[v].less.holds, three.windows.windows[v].less.holds);
    EXPECT_EQ(one.windows.windows[v].more.holds, three.windows.windows[v].more.holds);
    EXPECT_EQ(one.windows.windows[v].less.fails, three.windows.windows[v].less.fails);
  }
}

TEST(Windows, OfAMirroredRigAreMirrored) {
  // Nothing but the unit stands off the main line's plane: on its left here, on its right there.
  const auto off = [](const char* outlet) {
    return demo_layout({{"brake_unit.outlet", outlet}, {"limits.plane_thickness.at", "\"0.2 m\""}});
  };
  // 100 mm across from [1371.200, 928.400]: across is (-0.6, 0.8, 0).
  const Window left = found(off("[1371.140, 928.480, 332.500]"), {"unit across"}).of("unit across");
  const Window right = found(off("[1371.260, 928.320, 332.500]"), {"unit across"}).of("unit across");
  EXPECT_NEAR(left.less.holds, right.more.holds, 0.02 * left.less.holds);
  EXPECT_NEAR(left.more.holds, right.less.holds, 0.02 * left.more.holds);
}

TEST(Windows, EndNowhereWhereNothingGivesWay) {
  const Window window = found(demo_layout(), {"B1 across"}).of("B1 across");
  EXPECT_FALSE(window.more.fails.has_value());
  EXPECT_FALSE(window.more.first.has_value());
  EXPECT_EQ(window.more.holds, 1);
}

// A step of its own that lies between two amounts looked at is met half way: here the check itself is a wall.
TEST(Windows, EndBeforeAWallThatNothingForetold) {
  const Layout layout = demo_layout();
  const Judged design = judge(layout);
  const HeldFindings held(design);
  // As if the number made the unit's outlet no number from 0.3 on.
  const Variable wall{{Item::Kind::brake_unit, 0}, "wall", Dimension::length, [](Layout& changed, double by) {
                        if (by > 0.3) changed.brake_unit.outlet.value.x = std::nan("");
                      }};
  const Windows out = windows(held, {wall}, {}, {});
  EXPECT_LE(out.windows[0].more.holds, 0.3);
  EXPECT_GT(*out.windows[0].more.fails, 0.3);
  EXPECT_LE(*out.windows[0].more.fails - out.windows[0].more.holds, 0.02 * 0.3 * (1 + 1e-9));
  EXPECT_EQ(out.windows[0].less.holds, 1);
}

// What holds again farther out does not widen a window: half way is always looked at.
TEST(Windows, EndBeforeAStretchThatBreaksACheckHalfWay) {
  const Judged design = judge(demo_layout());
  const Variable stretch{{Item::Kind::brake_unit, 0}, "a stretch", Dimension::length, [](Layout& changed, double by) {
                           if (by > 0.4 && by < 0.6) changed.brake_unit.outlet.value.x = std::nan("");
                         }};
  const Reach more = windows(HeldFindings(design), {stretch}, {}, {}).windows[0].more;
  EXPECT_LE(more.holds, 0.4);
  ASSERT_TRUE(more.fails.has_value());
  EXPECT_GT(*more.fails, 0.4);
  EXPECT_LT(*more.fails, 0.6);
}

TEST(HeldFindings, IsWhatPassesAsDrawnAndHoldsThere) {
  const Judged design = judge(demo_layout());
  const HeldFindings held(design);
  const Outcome there = held.at(design.rig.layout, {});
  EXPECT_TRUE(there.holds);
  EXPECT_EQ(there.findings.size(), held.findings().size());
  EXPECT_EQ(static_cast<std::ptrdiff_t>(held.findings().size()),
            std::ranges::count(design.findings, Verdict::pass, &Finding::verdict));
  for (std::size_t f = 0; f < held.left().size(); ++f)
    EXPECT_TRUE(std::isnan(held.left()[f]) || held.left()[f] >= 0) << held.findings()[f].check->name;
}

TEST(HeldFindings, DoesNotHoldWhereTheRigIsUnsolved) {
  const Judged design = judge(demo_layout());
  Layout layout = design.rig.layout;
  layout.brake_unit.outlet.value.z = std::nan("");
  EXPECT_FALSE(HeldFindings(design).at(std::move(layout), {}).holds);
}

TEST(HeldFindings, DoNotHoldWhereOneIsNoLongerThere) {
  const Judged design = judge(shipped_layout("marten_ridge.toml"));
  ASSERT_FALSE(design.rig.layout.structures.empty());
  Layout without = design.rig.layout;
  without.structures.clear();
  EXPECT_FALSE(HeldFindings(design).at(std::move(without), {}).holds);
}

TEST(HeldFindings, DoNotHoldWhereANewOneDoesNotPass) {
  const Judged design = judge(demo_layout());
  const Outcome there = HeldFindings(design).at(with_post_beside_the_unit(design.rig.layout), {});
  EXPECT_FALSE(there.holds);
  ASSERT_FALSE(there.others.empty()) << "no limit was given for it";
  EXPECT_EQ(std::ranges::count(there.passes, 0), 0) << "all else passes as before";
}

TEST(Variables, ShiftEitherWay) {
  const Judged design = judge(demo_layout());
  const Variable unit{
      {}, "unit", Dimension::length, [](Layout& layout, double by) { layout.brake_unit.outlet.value.y += by; }};
  const double drawn = design.rig.layout.brake_unit.outlet.value.y;
  for (const double by : {-0.25, 0.0, 0.25})
    EXPECT_EQ(shifted(design.rig.layout, {unit}, {by}).brake_unit.outlet.value.y, drawn + by);
}

}  // namespace
}  // namespace fairlead

// What a rider can reach: as a box, by figures, or as the hull of a mesh.
#include "geometry/layout/rider_shape.hpp"

#include <cmath>

#include "geometry/solids/hull.hpp"
#include "tests/layout/good_layout.hpp"
#include "tests/scratch.hpp"

namespace fairlead {
namespace {

const std::string box = "[riders.envelope]\nwidth = 2.1\nlength = 2.4\nabove = 0.6\nbelow = 2.6\n";

/// The good layout with another table in place of its envelope.
std::string with(const std::string& table) {
  const std::string text = good_text();
  const std::size_t from = text.find("[riders.envelope]"), to = text.find("\n[", from + 1);
  return text.substr(0, from) + table + text.substr(to);
}

/// How far a point lies outside the shape.
double outside_m(const RiderShape& shape, Vec3 p) {
  const Point3 at = Point3{} + p;
  return solids::nearest(solids::Segment{at, at}, solids::Hull{{}, shape.corners}).distance_m - shape.margin_m;
}

TEST(RiderShape, AnEnvelopeIsItsBox) {
  const RiderShape shape = *shape_of(layout_of(with(box)).riders);
  EXPECT_EQ(shape.corners.size(), 8u);
  const RiderExtents around = box_around(shape);
  EXPECT_EQ(around.width_m, 2.1);
  EXPECT_EQ(around.length_m, 2.4);
  EXPECT_EQ(around.above_m, 0.6);
  EXPECT_EQ(around.below_m, 2.6);
}

// The arms sweep an ellipsoid about the shoulders, its half axes forward or back, side, and shoulders to up.
TEST(RiderShape, ReachHoldsWhatTheArmsSweepAndNotMuchMore) {
  const RiderShape shape = *shape_of(layout_of(with("[riders.reach]\nup = 0.2\ndown = 2.3\nforward = 0.9\nback = "
                                                    "0.7\nside = 1.0\nshoulders = 0.6\nmargin = \"50 mm\"\n"))
                                         .riders);
  EXPECT_EQ(shape.margin_m, 0.05);
  for (int i = 0; i <= 24; ++i)
    for (int j = 0; j < 48; ++j) {
      const double polar = M_PI / 2 * i / 24, round = 2 * M_PI * j / 48;
      const double x = std::sin(polar) * std::cos(round), y = std::sin(polar) * std::sin(round);
      const Vec3 arm{x * (x > 0 ? 0.9 : 0.7), y * 1.0, 0.8 * std::cos(polar) - 0.6};
      EXPECT_LE(outside_m(shape, arm), -0.05 + 1e-9) << i << " " << j;
      EXPECT_LE(outside_m(shape, {arm.x, arm.y, -2.3}), 1e-9);
      EXPECT_GT(outside_m(shape, 1.3 * (arm + Vec3{0, 0, 0.6}) - Vec3{0, 0, 0.6}), -0.05) << i << " " << j;
    }
  const RiderExtents around = box_around(shape);
  EXPECT_NEAR(around.above_m, 0.25, 1e-12);
  EXPECT_NEAR(around.below_m, 2.35, 1e-12);
  EXPECT_NEAR(around.width_m, 2.1, 1e-12);
  EXPECT_NEAR(around.length_m, 1.9, 1e-12);
}

TEST(RiderShape, ShouldersLieAboveTheFeet) {
  const auto read = read_layout_text(
      with("[riders.reach]\nup = 0.2\ndown = 0.6\nforward = 1\nback = 1\nside = 1\nshoulders = 0.6\n"), "otter.toml");
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().front().message, "riders reach: \"shoulders\" lie no higher than \"down\"");
}

TEST(RiderShape, OnlyOneIsGiven) {
  const auto read = read_layout_text(
      with(box + "[riders.reach]\nup = 0.2\ndown = 2.6\nforward = 1\nback = 1\nside = 1\nshoulders = 0.6\n"),
      "otter.toml");
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error().front().message, "riders: \"envelope\" and \"reach\" are both given");
}

class BodyFile : public testing::Test {
 protected:
  void write(const std::string& name, const std::string& text) const { folder_.write(name, text); }
  tl::expected<Layout, Diagnostics> read(const std::string& table) const {
    return read_layout(folder_.write("otter.toml", with(table)));
  }
  Scratch folder_;
};

TEST_F(BodyFile, IsTheHullOfItsMesh) {
  write("rider.obj",
        "v -500 0 -2000\nv 700 0 -2000\nv 0 600 -600\nv 0 -600 -600\nv 0 0 150\nv 0 0 -1000\n"
        "f 1 2 3\nf 1 2 4\nf 3 4 5\nf 1 5 6\n");
  const auto layout = read("[riders.body]\nfile = \"rider.obj\"\nunit = \"mm\"\nmargin = 0.1\nsideways = \"8 deg\"\n");
  ASSERT_TRUE(layout.has_value()) << print(layout.error().front());
  const RiderShape shape = *shape_of(layout->riders);
  EXPECT_NEAR(shape.margin_m, 0.1, 1e-12) << "every corner was kept";
  EXPECT_NEAR(shape.sideways_rad->value, 8 * M_PI / 180, 1e-12);
  for (const Vec3 p : {Vec3{-0.5, 0, -2}, {0.7, 0, -2}, {0, 0.6, -0.6}, {0, 0, 0.15}, {0, 0, -1}})
    EXPECT_LE(outside_m(shape, p), -0.1 + 1e-9);
  EXPECT_GT(outside_m(shape, {0.7, 0.6, -2}), 0.2);
  EXPECT_NEAR(box_around(shape).above_m, 0.25, 1e-12);
}

TEST_F(BodyFile, IsRefusedWhereItIsNone) {
  const auto message = [&](const std::string& file) {
    const auto layout = read("[riders.body]\nfile = \"" + file + "\"\nunit = \"m\"\n");
    return layout ? std::string("read") : layout.error().front().message;
  };
  write("far.obj", "v 0 0 0\nv 11 0 0\nv 0 1 0\nf 1 2 3\n");
  write("dots.xyz", "0 0 0\n0 1 0\n");
  EXPECT_EQ(message("far.obj"), "riders body: far.obj reaches farther than 10 m from the wheel");
  EXPECT_EQ(message("dots.xyz"), "riders body: the file holds points, and a body is of triangles");
  EXPECT_TRUE(message("none.stl").ends_with("there is no such file")) << message("none.stl");
}

}  // namespace
}  // namespace fairlead

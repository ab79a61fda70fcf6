#include "geometry/arrest/backup.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/arrest/riding.hpp"

namespace fairlead::arrest {
namespace {

/// A line of 100 m drawn so taut and so light that it is one straight rail.
mainline::Path rail(double weight_N) {
  return *mainline::Path::solve({100, 0, 100.0001, 1e-3, 1e-7}, weight_N, 30, 90, 200);
}

Inputs backup(std::vector<CurvePoint> force, double stroke_m) {
  Inputs in;
  in.rest_m = 50, in.backup_m = 65, in.backup_N = Curve(std::move(force)), in.backup_stroke_m = stroke_m;
  return in;
}

constexpr double kg = 126.5;

Drive drive(const mainline::Path& path) {
  return {[&path](double x_m) { return path.drive_force_N(x_m); }, path.to_m()};
}

/// Energy at the brake: arrival's, what the path gives on the way, none of it lost.
double energy_J(const mainline::Path& path, double speed, double to_m) {
  return kg * speed * speed / 2 + path.potential_J(50) - path.potential_J(to_m);
}

TEST(BackupBrake, SpringsGiveAsFarAsTheEnergyGoes) {
  const mainline::Path path = rail(kg * g);
  const Inputs in = backup({{0, 0}, {4, 16000}}, 4);
  const auto b = backup_alone(in, drive(path), kg, 0, 0, 0, 9);
  ASSERT_TRUE(b) << b.error().why;
  EXPECT_EQ(b->residual_m_per_s, 0);
  EXPECT_NEAR(b->speed_m_per_s, std::sqrt(2 * energy_J(path, 9, 65) / kg), 1e-3);
  // A centimetre's stride leaves the square of its share of the compression.
  const double c = b->compression_m;
  EXPECT_NEAR(4000 * c * c / 2, energy_J(path, 9, 65 + c), 1e-3 * kg * 81 / 2);
  EXPECT_NEAR(b->force_N, 4000 * c, 1e-9);
}

TEST(BackupBrake, ThatIsTooWeakTellsTheSpeedLeftAtTheEndOfItsStroke) {
  const mainline::Path path = rail(kg * g);
  const auto b = backup_alone(backup({{0, 500}, {4, 500}}, 4), drive(path), kg, 0, 0, 0, 9);
  ASSERT_TRUE(b) << b.error().why;
  EXPECT_EQ(b->compression_m, 4);
  EXPECT_NEAR(kg * b->residual_m_per_s * b->residual_m_per_s / 2, energy_J(path, 9, 69) - 500 * 4, 1);
}

/// Rolling resistance and still air take what they take on the way to it.
TEST(BackupBrake, MeetsARiderWhomTheWayHasSlowed) {
  const mainline::Path path = rail(kg * g);
  const Inputs in = backup({{0, 0}, {4, 16000}}, 4);
  const auto rolled = backup_alone(in, drive(path), kg, 0, 0, 0.02, 9);
  ASSERT_TRUE(rolled);
  EXPECT_NEAR(kg * rolled->speed_m_per_s * rolled->speed_m_per_s / 2, energy_J(path, 9, 65) - 0.02 * kg * g * 15, 1);
  const auto aired = backup_alone(in, drive(path), kg, 0.5, -6, 0, 9),
             still = backup_alone(in, drive(path), kg, 0.5, 0, 0, 9);
  ASSERT_TRUE(aired && still);
  EXPECT_LT(aired->speed_m_per_s, still->speed_m_per_s);
  const auto stopped = backup_alone(in, drive(path), kg, 0, 0, 0.5, 9);
  ASSERT_TRUE(stopped);
  EXPECT_EQ(stopped->compression_m, 0) << "he stops before he meets it";
  EXPECT_EQ(stopped->force_N, 0);
}

TEST(BackupBrake, WithoutForceOrStrokeIsNotKnown) {
  const mainline::Path path = rail(kg * g);
  Inputs in = backup({{0, 0}, {4, 16000}}, 4);
  in.backup_N.reset();
  EXPECT_FALSE(backup_alone(in, drive(path), kg, 0, 0, 0, 9));
  in = backup({{0, 0}, {4, 16000}}, 40);
  EXPECT_FALSE(backup_alone(in, drive(path), kg, 0, 0, 0, 9)) << "its stroke ends beyond the solved path";
}

}  // namespace
}  // namespace fairlead::arrest

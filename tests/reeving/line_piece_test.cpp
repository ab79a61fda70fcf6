// The closed form of a piece of the main line, against the solved line and against differences.
#include "geometry/reeving/line_piece.hpp"

#include <gtest/gtest.h>

#include "tests/reeving/line_steps.hpp"

namespace fairlead::reeving {
namespace {

struct Solved1 {
  double L, D, M, X, V, H;
};
/// Every piece of a solved line, by the solver's own numbers.
std::vector<Solved1> pieces(const mainline::Cable& cable, const mainline::Shape& shape) {
  std::vector<Solved1> all;
  for (int i = 0; i <= shape.loads; ++i) {
    const mainline::Piece& piece = shape.pieces[static_cast<std::size_t>(i)];
    const bool last = i == shape.loads;
    const double end_x = last ? cable.span_m : shape.wheels[static_cast<std::size_t>(i)].x_m,
                 end_z = last ? cable.rise_m : shape.wheels[static_cast<std::size_t>(i)].z_m;
    const double end_V = piece.V_N - cable.weight_N_per_m * piece.unstretched_m;
    const double M = (std::hypot(piece.H_N, piece.V_N) + std::hypot(piece.H_N, end_V)) / 2;
    all.push_back({piece.unstretched_m, piece.z_m - end_z, M, end_x - piece.x_m, (piece.V_N + end_V) / 2, piece.H_N});
  }
  return all;
}

double level_tension_N(const PieceEnds<double>& at, const mainline::Cable& cable) {
  return piece_step(at.L, at.steep * at.L, at.steep, at.M, cable).H.at.middle();
}

TEST(LinePiece, ItsClosedFormIsTheSolvedCatenary) {
  std::mt19937_64 random(11);
  int seen = 0;
  while (seen < 300) {
    const auto line = any_line(random);
    if (!line) continue;
    ++seen;
    const auto shape = line->at(line->rest_m * std::uniform_real_distribution(0.01, 0.99)(random));
    ASSERT_TRUE(shape);
    for (const Solved1& piece : pieces(line->cable, *shape)) {
      const LinePiece<double> told = line_piece(PieceEnds<double>{piece.L, piece.D / piece.L, piece.M}, line->cable);
      // The solver closes to 1e-12 of the whole length.
      const double close = 1e-11 * line->cable.unstretched_m;
      EXPECT_NEAR(told.X, piece.X, close);
      EXPECT_NEAR(told.V, piece.V, 2 * close * piece.M / piece.L);
      const LevelTension level = level_tension({piece.L, piece.D / piece.L, piece.M}, line->cable);
      const double steepest = std::max(std::abs(piece.V + line->cable.weight_N_per_m * piece.L / 2),
                                       std::abs(piece.V - line->cable.weight_N_per_m * piece.L / 2)) /
                              piece.H;
      EXPECT_NEAR(level_tension_N({piece.L, piece.D / piece.L, piece.M}, line->cable), piece.H,
                  2 * close * piece.M / piece.L);
      EXPECT_NEAR(level.steepest, steepest, 1e-9 * (1 + steepest) * line->cable.unstretched_m / piece.L);
    }
  }
}

TEST(LinePiece, TheSumIsTheSameAlongTheLineAndTellsTheTension) {
  for (const mainline::Cable& cable : lines_of_all_kinds()) {
    const LineWithWheels line{cable, 900, 188, 40};
    const mainline::Shape shape = *line.at(70);
    const auto sum_N = [&](double T, double z) {
      return T + cable.compliance_per_N * T * T / 2 - cable.weight_N_per_m * z;
    };
    const double first = sum_N(shape.wheels[0].tension_N, shape.wheels[0].z_m);
    EXPECT_NEAR(sum_N(shape.wheels[1].tension_N, shape.wheels[1].z_m), first, 1e-9 * first);
    EXPECT_NEAR(sum_N(std::hypot(shape.pieces[0].H_N, shape.pieces[0].V_N), 0), first, 1e-9 * first);
    const LineTension<double> at = line_tension(first + cable.weight_N_per_m * shape.wheels[1].z_m, cable);
    EXPECT_NEAR(at.T, shape.wheels[1].tension_N, 1e-9 * at.T);
    EXPECT_NEAR(at.per, 1 / (1 + cable.compliance_per_N * at.T), 1e-12);
  }
}

// A difference over 2e of a smooth function leaves e2/6 of its third derivative, some 1e-10 of itself, and rounding of
// 1e-16 of the value over e.
TEST(LinePiece, ItsDerivativesAreThoseOfDifferences) {
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (const double L : {3., 60., 200.})
      for (const double steep : {-0.3, 0.01, 0.2})
        for (const double M : {4000., 16000.}) {
          const auto at = [&](double l, double q, double m) { return line_piece(PieceEnds<double>{l, q, m}, cable); };
          const auto H = [&](double l, double q, double m) { return level_tension_N({l, q, m}, cable); };
          const LinePiece<double> told = at(L, steep, M);
          const PerEnds<Band> level = level_tension({L, steep, M}, cable).H_per;
          const double e = 1e-5;
          const auto per = [&](auto of) {
            return PerEnds<double>{(of(L * (1 + e), steep, M) - of(L * (1 - e), steep, M)) / (2 * e * L),
                                   (of(L, steep + e, M) - of(L, steep - e, M)) / (2 * e),
                                   (of(L, steep, M * (1 + e)) - of(L, steep, M * (1 - e))) / (2 * e * M)};
          };
          const auto X = per([&](double l, double q, double m) { return at(l, q, m).X; });
          const auto V = per([&](double l, double q, double m) { return at(l, q, m).V; });
          const auto level_per = per(H);
          EXPECT_NEAR(told.X_per.L, X.L, 1e-8);
          EXPECT_NEAR(told.X_per.steep, X.steep, 1e-8 * L);
          EXPECT_NEAR(told.X_per.M, X.M, 1e-8 * L / M);
          EXPECT_NEAR(told.V_per.L, V.L, 1e-8 * M / L);
          EXPECT_NEAR(told.V_per.steep, V.steep, 1e-8 * M);
          EXPECT_NEAR(told.V_per.M, V.M, 1e-8);
          EXPECT_NEAR(level.L.middle(), level_per.L, 1e-8 * M / L);
          EXPECT_NEAR(level.steep.middle(), level_per.steep, 1e-8 * M);
          EXPECT_NEAR(level.M.middle(), level_per.M, 1e-8);
        }
}

TEST(LinePiece, ItsBandsHoldEveryPieceBetween) {
  std::mt19937_64 random(12);
  const auto uniform = [&](double from, double to) { return std::uniform_real_distribution(from, to)(random); };
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (int i = 0; i < 300; ++i) {
      const double L = uniform(2, 200), steep = uniform(-0.4, 0.4), M = uniform(4000, 20000), wide = uniform(0, 0.05);
      const PieceEnds<Band> bands{around(L, wide * L), around(steep, wide), around(M, wide * M)};
      const LinePiece<Band> told = line_piece(bands, cable);
      const LevelTension level = level_tension(bands, cable);
      const auto within = [&](Band b) { return uniform(b.low, b.high); };
      const PieceEnds<double> one{within(bands.L), within(bands.steep), within(bands.M)};
      const LinePiece<double> at = line_piece(one, cable);
      const LevelTension one_level = level_tension({one.L, one.steep, one.M}, cable);
      const auto expect_in = [](Band b, double value) {
        EXPECT_GE(value, b.low - 1e-12 * std::abs(value));
        EXPECT_LE(value, b.high + 1e-12 * std::abs(value));
      };
      const auto expect_all_in = [&](const PerEnds<Band>& b, const PerEnds<double>& v) {
        expect_in(b.L, v.L);
        expect_in(b.steep, v.steep);
        expect_in(b.M, v.M);
      };
      expect_in(told.X, at.X);
      expect_in(told.V, at.V);
      expect_all_in(told.X_per, at.X_per);
      expect_all_in(told.V_per, at.V_per);
      const PerEnds<Band>& H = one_level.H_per;
      expect_all_in(level.H_per, {H.L.middle(), H.steep.middle(), H.M.middle()});
      EXPECT_GE(level.steepest, one_level.steepest * (1 - 1e-12));
    }
}

// Differences at the share t, of quantities that go as the step says: L evenly, D with a second derivative, or the
// slope evenly.
TEST(LinePiece, OnAStepItsBandsHoldTheDifferences) {
  std::mt19937_64 random(13);
  const auto uniform = [&](double from, double to) { return std::uniform_real_distribution(from, to)(random); };
  for (const mainline::Cable& cable : lines_of_all_kinds())
    for (int i = 0; i < 400; ++i) {
      const bool evenly_steep = i % 2 == 0;
      const double L = uniform(5, 200), D = L * uniform(-0.3, 0.3), M = uniform(4000, 20000),
                   D_bend = uniform(-0.01, 0.01);
      const std::array<double, 2> Ls{L, L + uniform(-1, 1)}, Ds{D, D + uniform(-0.2, 0.2)},
          Ms{M, M * uniform(0.98, 1.02)};
      const BandJet long_m = even(Ls[0], Ls[1]), even_steep = even(Ds[0] / Ls[0], Ds[1] / Ls[1]);
      const BandJet even_drop = even(Ds[0], Ds[1]),
                    drop{wider(even_drop.at, std::abs(D_bend) / 8), even_drop.rate + D_bend * Band(-0.5, 0.5), D_bend};
      const PieceStep told = evenly_steep
                                 ? piece_step(long_m, even_steep * long_m, even_steep, even(Ms[0], Ms[1]), cable)
                                 : piece_step(long_m, drop, steep_of(Ls, Ds, D_bend), even(Ms[0], Ms[1]), cable);
      struct Values {
        double X, V, H, steep;
      };
      const auto at = [&](double t) {
        const auto on = [&](double from, double to) { return from + t * (to - from); };
        const double here_m = on(Ls[0], Ls[1]);
        const double steep =
            evenly_steep ? on(Ds[0] / Ls[0], Ds[1] / Ls[1]) : (on(Ds[0], Ds[1]) - D_bend * t * (1 - t) / 2) / here_m;
        const PieceEnds<double> ends{here_m, steep, on(Ms[0], Ms[1])};
        const LinePiece<double> piece = line_piece(ends, cable);
        return Values{piece.X, piece.V, level_tension_N(ends, cable), steep};
      };
      constexpr double e = 0.05;
      const double t = uniform(e, 1 - e);
      const Values before = at(t - e), here = at(t), after = at(t + e);
      const auto expect_in = [&](const BandJet& jet, double Values::*of, const char* what) {
        const double p = before.*of, q = here.*of, r = after.*of, noise = 1e-14 * (std::abs(q) + 1e-3) / (e * e);
        EXPECT_GE((p - 2 * q + r) / (e * e), jet.bend.low - noise) << what;
        EXPECT_LE((p - 2 * q + r) / (e * e), jet.bend.high + noise) << what;
        EXPECT_GE((r - p) / (2 * e), jet.rate.low - noise) << what;
        EXPECT_LE((r - p) / (2 * e), jet.rate.high + noise) << what;
        EXPECT_GE(q, jet.at.low - 1e-12 * std::abs(q)) << what;
        EXPECT_LE(q, jet.at.high + 1e-12 * std::abs(q)) << what;
      };
      expect_in(told.X, &Values::X, "X");
      expect_in(told.V, &Values::V, "V");
      expect_in(told.H, &Values::H, "H");
      if (!evenly_steep) expect_in(steep_of(Ls, Ds, D_bend), &Values::steep, "D/L");
    }
}

TEST(LinePiece, WhereNoneHangsNothingIsTold) {
  const mainline::Cable cable = worked_cable();
  EXPECT_TRUE(std::isnan(line_piece(PieceEnds<Band>{{-1., 2.}, Band(0.1), Band(9000)}, cable).X.low));
  EXPECT_TRUE(std::isnan(line_piece(PieceEnds<Band>{Band(10), {0.9, 1.1}, Band(9000)}, cable).X.low))
      << "steeper than plumb";
  EXPECT_TRUE(std::isnan(line_piece(PieceEnds<Band>{Band(10), Band(0.1), {40., 9000.}}, cable).X.low))
      << "its weight is more";
  EXPECT_TRUE(std::isnan(level_tension({Band(10), Band(0.1), {40., 9000.}}, cable).steepest));
}

}  // namespace
}  // namespace fairlead::reeving

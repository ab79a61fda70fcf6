// The main line's tension by points shot on it: a closed form, the laws, and what is not believed.
#include "geometry/asbuilt/line_shots.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "geometry/asbuilt/as_built.hpp"
#include "geometry/asbuilt/draws.hpp"
#include "geometry/rig/inputs.hpp"
#include "tests/checks/findings.hpp"

namespace fairlead {
namespace {

using mainline::Cable;
using mainline::MeasuredAt;

constexpr double u_m = 0.003;

/// CATENARY: an inextensible line of c = H/w, its lowest point at x = a. Height over the start support.
double height(double c, double a, double x) { return c * (std::cosh((x - a) / c) - std::cosh(a / c)); }

/// 120 m from support to support.
struct Hung {
  double c = 700, a = 75, weight = 12;
  Cable cable() const { return {120, height(c, a, 120), 0, weight, 0}; }
  std::vector<ShotOnPlane> shots(std::initializer_list<double> at) const {
    std::vector<ShotOnPlane> all;
    for (const double x : at) all.push_back({x, height(c, a, x), 0});
    return all;
  }
};

LineByShots solved(const Hung& hung, const std::vector<ShotOnPlane>& shots, MeasuredAt at = MeasuredAt::horizontal) {
  const auto line = line_by_shots(hung.cable(), at, shots, u_m);
  if (!line) throw std::runtime_error(line.error().why);
  return *line;
}

// H = w c, and at the supports T = w y with y the height over the directrix: w c cosh.
TEST(LineShots, PointsOfACatenaryGiveItsTensionBack) {
  const Hung hung;
  const auto shots = hung.shots({20, 45, 60, 95});
  EXPECT_NEAR(solved(hung, shots).tension_N, 12 * 700, 8400 * 1e-9);
  EXPECT_NEAR(solved(hung, shots, MeasuredAt::start).tension_N, 8400 * std::cosh(75.0 / 700), 8400 * 1e-9);
  EXPECT_NEAR(solved(hung, shots, MeasuredAt::end).tension_N, 8400 * std::cosh(45.0 / 700), 8400 * 1e-9);
  for (const double above : solved(hung, shots).above_m) EXPECT_NEAR(above, 0, 1e-9);
  EXPECT_NEAR(solved(hung, shots).chi_squared, 0, 1e-9);
  EXPECT_TRUE(solved(hung, shots).agrees);
}

TEST(LineShotsLaws, TwiceTheWeightIsTwiceTheTensionAndOneShotIsEnoughButUnchecked) {
  Hung hung;
  const auto shots = hung.shots({50});
  const LineByShots light = solved(hung, shots);
  hung.weight *= 2;
  const LineByShots heavy = solved(hung, shots);
  EXPECT_NEAR(heavy.tension_N, 2 * light.tension_N, 1e-9 * heavy.tension_N);
  EXPECT_NEAR(heavy.uncertainty_N, 2 * light.uncertainty_N, 1e-6 * heavy.uncertainty_N);
  EXPECT_EQ(light.redundancy, 0);
}

// The sag there is w x (l - x) / 2 H: what it is off by the shot and by both supports, each by its share, is off in H
// by the same part. At mid-span sqrt(1 + 1/4 + 1/4) of u, over a sag of 2.57 m; the slope of a percent or two adds
// 1e-4.
TEST(LineShots, ItsUncertaintyIsThatOfTheSag) {
  const Hung hung{.c = 700, .a = 60};
  const LineByShots line = solved(hung, hung.shots({60}));
  const double sag_m = 700 * (std::cosh(60.0 / 700) - 1);
  EXPECT_NEAR(line.uncertainty_N / line.tension_N, std::sqrt(1.5) * u_m / sag_m, 2e-3 * u_m / sag_m + 1e-6);
}

// 200 surveys of supports and shots: 1.96 of the stated uncertainty holds the tension in 190 +- 3.1 of them, four and a
// half of that; the mean of chi-squared is the redundancy, 4, with a deviation of sqrt(2 * 4 / 200).
TEST(LineShotsLaws, NoiseOfTheStatedSizeIsFoundWithinTheStatedUncertaintyInTheStatedShare) {
  const Hung hung;
  int found = 0;
  double chi_squared = 0;
  for (std::uint64_t s = 0; s < 200; ++s) {
    std::uint64_t n = 0;
    const auto noise = [&] { return u_m * standard_normal(23, s, n++); };
    auto shots = hung.shots({20, 40, 60, 80, 100});
    const double start_m = noise(), end_m = noise();
    for (ShotOnPlane& shot : shots) shot.z_m += noise() - start_m;
    Cable cable = hung.cable();
    cable.rise_m += end_m - start_m;
    const auto line = line_by_shots(cable, MeasuredAt::horizontal, shots, u_m);
    ASSERT_TRUE(line) << line.error().why;
    found += std::abs(line->tension_N - 8400) <= 1.96 * line->uncertainty_N ? 1 : 0;
    chi_squared += line->chi_squared / 200;
  }
  EXPECT_NEAR(found, 190, 4.5 * 3.1);
  EXPECT_NEAR(chi_squared, 4, 4.5 * std::sqrt(8.0 / 200));
}

TEST(LineShots, AShotOffTheLineOrAsideOfItIsNamedAndTheTensionNotBelieved) {
  const Hung hung;
  const std::vector<ShotOnLine> ids{{"main_line-1", {}, {}, 1}, {"main_line-2", {}, {}, 2}, {"main_line-3", {}, {}, 3}};
  auto low = hung.shots({30, 60, 90});
  low[1].z_m -= 0.05;
  EXPECT_TRUE(disagreement(solved(hung, low), ids)
                  .starts_with("the shots lie on no one catenary within the stated uncertainty, main_line-2 the least"))
      << disagreement(solved(hung, low), ids);
  auto blown = hung.shots({30, 60, 90});
  blown[2].across_m = -0.05;
  EXPECT_EQ(disagreement(solved(hung, blown), ids),
            "main_line-3 stands aside of the plane through the supports: it is not on the line, or wind blew");
  EXPECT_EQ(disagreement(solved(hung, hung.shots({30, 60, 90})), ids), "");
}

TEST(LineShots, WhatLeavesTheTensionOpenIsNotSolved) {
  const Hung hung;
  const auto why = [&](const std::vector<ShotOnPlane>& shots, double u = u_m) {
    const auto line = line_by_shots(hung.cable(), MeasuredAt::end, shots, u);
    return line ? "it is solved" : line.error().why;
  };
  EXPECT_EQ(why({}), "no point was shot on the main line");
  EXPECT_EQ(why(hung.shots({130})), "a shot on the main line stands beyond its supports");
  EXPECT_EQ(why(hung.shots({0.2})), "the shots leave the tension open by 25 %, one standard uncertainty");
  EXPECT_EQ(why({{60, 5, 0}}), "the shots lie on or above the straight line between the supports");
  EXPECT_EQ(why(hung.shots({60}), 0), "the uncertainty of the points is not known");
  EXPECT_EQ(why({{60, std::nan(""), 0}}), "a shot on the main line stands beyond its supports");
}

/// The demo as drawn, its main line by shots on the line as it was solved, and nothing else but its temperature.
Survey shot_survey(double extra_sag_share = 0) {
  static const Rig rig = solve(demo_layout());
  Survey survey{.points_file = "points.csv", .measurements_file = "tapes.csv", .terms = {.uncertainty_m = 1e-3}};
  for (const SetOutPoint& mark : set_out_points(rig))
    survey.points.push_back({mark.id, *mark.at, "", static_cast<unsigned>(survey.points.size() + 1)});
  std::vector<std::string> assumptions;
  const auto in = main_line_inputs(rig.layout, rig.frame, assumptions);
  Cable cable{in->span_m, in->rise_m, 0, in->mass_kg_per_m * standard_gravity, in->compliance_per_N.low};
  cable.unstretched_m = *mainline::length_from_tension(cable.span_m, cable.rise_m, cable.weight_N_per_m,
                                                       cable.compliance_per_N, 18e3, in->measured_at);
  const auto shape = *mainline::hang(cable);
  for (int i = 1; i <= 4; ++i) {
    const double x = i * in->span_m / 5, chord = in->rise_m * x / in->span_m;
    const double z = chord + (1 + extra_sag_share) * (mainline::line_at(cable, shape, x).z_m - chord);
    survey.points.push_back({"main_line-" + std::to_string(i),
                             rig.frame.origin + (x * rig.frame.along + z * rig.frame.up), "",
                             static_cast<unsigned>(survey.points.size() + 1)});
  }
  survey.measurements.push_back(
      {{.item = "main_line", .value = 273.15 + 12, .uncertainty = 0.1, .line = 2}, Measurand::temperature});
  return survey;
}

AsBuilt built(Survey survey) {
  auto result =
      as_built(demo_layout(), std::move(survey), {.draws = fewest_draws, .hold_arrest = true}, {.threads = 2});
  if (result) return std::move(*result);
  std::string message;
  for (const PointsErrors* errors : {&result.error().points, &result.error().measurements})
    for (const PointsError& error : errors->first) message += error.message + "; " + error.instead + "\n";
  throw std::runtime_error(message);
}

bool rests_on_tension(const AsBuilt& it) {
  for (const Basis& basis : it.basis)
    for (const int c : basis.unmeasured)
      if (it.characteristics[static_cast<std::size_t>(c)].name == "tension of main_line") return true;
  return false;
}

// Stretch differs by what EA is open by: a few parts in ten thousand.
TEST(LineShots, OfABuiltRigTheyTakeThePlaceOfATension) {
  const AsBuilt it = built(shot_survey());
  ASSERT_TRUE(it.main_line.solved && *it.main_line.solved);
  EXPECT_EQ(it.main_line.doubt, "");
  EXPECT_NEAR((*it.main_line.solved)->tension_N, 18e3, 18e3 * 3e-4);
  EXPECT_NEAR(it.built.rig.layout.main_line.tension_N->value.low, 18e3, 18e3 * 3e-4);
  EXPECT_FALSE(rests_on_tension(it));
  EXPECT_TRUE(it.placing.strangers.empty());
  // A tenth more sag is a tenth less tension, but for the part that is no sag's.
  const AsBuilt slack = built(shot_survey(0.1));
  EXPECT_NEAR((*slack.main_line.solved)->tension_N, 18e3 / 1.1, 18e3 * 2e-3);
}

TEST(LineShots, WithoutItsSupportOrWithAShotOffItTheTensionIsNotMeasured) {
  Survey without = shot_survey();
  std::erase_if(without.points, [](const SurveyPoint& point) { return point.id == "P2"; });
  const AsBuilt it = built(without);
  EXPECT_EQ(it.main_line.doubt, "the support P2 was not measured");
  EXPECT_TRUE(rests_on_tension(it));
  Survey off = shot_survey();
  off.points.back().at.z += 0.1;
  const AsBuilt bent = built(off);
  EXPECT_NE(bent.main_line.doubt, "");
  EXPECT_TRUE(rests_on_tension(bent));
}

TEST(LineShots, TheirTemperatureIsAskedForAndATensionBesidesIsRefused) {
  const auto refused = [](Survey survey) {
    try {
      built(std::move(survey));
    } catch (const std::runtime_error& error) {
      return std::string(error.what());
    }
    return std::string("it is taken");
  };
  Survey cold = shot_survey();
  cold.measurements.clear();
  EXPECT_EQ(
      refused(cold),
      "\"main_line-1\" on the main line says nothing without its temperature; measure the temperature of main_line "
      "as it was shot\n");
  Survey both = shot_survey();
  both.measurements.push_back({{.item = "main_line", .value = 18e3, .uncertainty = 1, .line = 3}, Measurand::tension});
  EXPECT_EQ(refused(both), "points were shot on the main line, and they tell its tension; give the better one alone\n");
}

}  // namespace
}  // namespace fairlead

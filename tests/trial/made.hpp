// The demo rig with its plan of unmanned tests, and results as they would be read with inputs known to the tests alone.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "geometry/asbuilt/draws.hpp"
#include "geometry/checks/check.hpp"
#include "geometry/trial/hand_pulls.hpp"
#include "geometry/trial/trial.hpp"
#include "tests/demo_layout.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead::trial {

inline const Rig& demo_rig() {
  static const Judged judged = judge(shipped_layout("heron_gully.toml"));
  return judged.rig;
}

inline const Plan& demo_plan() {
  static const Plan made = [] {
    auto solved = plan(demo_rig(), {.threads = 2});
    if (!solved) throw std::runtime_error(solved.error().why);
    return std::move(*solved);
  }();
  return made;
}

inline const Expected& expected(const Test& test, Trialled what) {
  for (const Expected& one : test.expected)
    if (one.what == what) return one;
  throw std::runtime_error("not measured at " + test.id);
}

inline const Test& test_named(std::string_view id) {
  const Test* found = demo_plan().find(id);
  if (!found) throw std::runtime_error("no test " + std::string(id));
  return *found;
}

/// What the rig is truly like on the days of the shipped results.
struct Truth {
  double brake_share = 1.03, rolling = 0.0185, drag_area_m2 = 0.225, pull_share = 0.997;
};

inline double wind_on(std::size_t test) { return 0.4 * std::sin(1.3 * static_cast<double>(test)); }
inline constexpr double warm_K = 273.15 + 14;

/// The text of a results file as a crew would have filled it in after the plan, each number off by its uncertainty
/// times a normal draw.
inline std::string results_text(const Truth& truth, std::uint64_t seed) {
  const Rig& rig = demo_rig();
  const Site& site = rig.layout.site;
  const double warmth = (warm_K - site.coldest_K) / (site.warmest_K - site.coldest_K);
  std::string text =
      "# Heron Gully, line 2: what a crew wrote down at its unmanned tests, invented like the site.\n"
      "# Wind is positive toward the landing. No load cell was in the line at M1.\n"
      "test,quantity,value,unit,uncertainty\n";
  std::uint64_t drawn = 0;
  const auto add = [&](const std::string& id, std::string_view word, double value, const char* unit, double u,
                       int decimals) {
    const double read = value + u * standard_normal(seed, 0, drawn++);
    text += fmt::format("{},{},{:.{}f},{},{}\n", id, word, read, decimals, unit, u);
  };
  const auto count = [&](const std::string& id, std::string_view word, int n) {
    text += fmt::format("{},{},{},,\n", id, word, n);
  };
  std::vector<double> kg;
  for (const Test& test : demo_plan().tests)
    if (test.kind == Kind::test_mass) kg.push_back(test.mass_kg + 0.3);
  const auto masses = test_masses(rig, kg);
  if (!masses) throw std::runtime_error(masses.error().why);
  std::size_t m = 0;
  for (const Test& test : demo_plan().tests) {
    const auto mid = [&](Trialled what) {
      const Span& span = *expected(test, what).predicted;
      return (span.low + span.high) / 2;
    };
    if (test.kind == Kind::hand_pull) {
      add(test.id, "pull_on", mid(Trialled::pull_on) * truth.pull_share, "N", 0.5, 1);
      add(test.id, "let_back", mid(Trialled::let_back) / truth.pull_share, "N", 0.5, 1);
      add(test.id, "extension", mid(Trialled::extension), "m", 0.003, 3);
      if (test.travel_m > 0) {
        count(test.id, "returned", 1);
        add(test.id, "return_time", mid(Trialled::return_time), "s", 0.02, 2);
        add(test.id, "rest_shift", 0, "mm", 5, 0);
      }
      continue;
    }
    const TestMass& mass = (*masses)[m];
    const double wind = wind_on(m);
    // The crew moved it up as the arrivals before came slower than the fastest corner.
    const double up = test.slow_release_m ? 0.3 * (test.release_m - *test.slow_release_m) : 0;
    // Nobody gets farther up than the riders' push-off; a tape that reads it a little short says no other.
    const double release_m =
        std::max(releases(rig).low + 0.05, test.release_m - std::floor(up / release_step_m) * release_step_m);
    const Conditions on{wind, truth.rolling, truth.brake_share, truth.drag_area_m2, truth.pull_share};
    const auto cold = ride(rig, mass, mass.variants[0].cold, release_m, on),
               warm = ride(rig, mass, mass.variants[0].warm, release_m, on);
    const auto at = [&](double Ride::*value) { return (*cold).*value + warmth * ((*warm).*value - (*cold).*value); };
    add(test.id, "mass", mass.kg, "kg", 0.05, 2);
    add(test.id, "release", release_m + rig.frame.chainage_of_origin_m, "m", 0.01, 2);
    add(test.id, "temperature", warm_K - 273.15, "C", 0.5, 1);
    add(test.id, "wind", wind, "m/s", 0.1, 2);
    add(test.id, "arrival_speed", at(&Ride::arrival_speed_m_per_s), "m/s", 0.03, 2);
    add(test.id, "stopping_travel", at(&Ride::stopping_travel_m), "m", 0.02, 3);
    add(test.id, "extension", at(&Ride::extension_m), "m", 0.02, 3);
    if (m > 0) add(test.id, "line_tension", at(&Ride::line_tension_N), "N", 3, 0);
    for (const char* none : {"touches", "slack", "backup_reached"}) count(test.id, none, 0);
    count(test.id, "returned", 1);
    const double stop_m = at(&Ride::stopping_travel_m);
    const Span back_s = *return_time_s(rig, {stop_m, stop_m});
    add(test.id, "return_time", (back_s.low + back_s.high) / 2, "s", 0.02, 2);
    add(test.id, "rest_shift", 0, "mm", 5, 0);
    ++m;
  }
  return text;
}

inline std::vector<TrialRow> rows_of(std::string_view text) {
  auto rows = read_trial_results(text);
  if (!rows) throw std::runtime_error(rows.error().first.front().message);
  return std::move(*rows);
}

inline constexpr std::uint64_t demo_seed = 20261126;

}  // namespace fairlead::trial

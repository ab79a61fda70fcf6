// The few uncertain inputs, asked back from readings that were made with known ones.
#include "geometry/trial/fit.hpp"

#include <gtest/gtest.h>

#include "geometry/trial/trial.hpp"
#include "tests/trial/made.hpp"

namespace fairlead::trial {
namespace {

Fit fitted(std::string_view text) {
  auto results = compare(demo_rig(), demo_plan(), "tests.csv", rows_of(text), {.threads = 2});
  if (!results) throw std::runtime_error(results.error().first.front().message);
  auto found = fit(demo_rig(), demo_plan(), *results, {.threads = 2});
  if (!found) throw std::runtime_error(found.error().why);
  return std::move(*found);
}

const Fit& of_shipped() {
  static const Fit found = fitted(results_text(Truth{}, demo_seed));
  return found;
}

std::array<double, inputs> truth() {
  const Truth t;
  return {t.brake_share, t.rolling, t.drag_area_m2, t.pull_share};
}

// The truths are within 3 of the standard uncertainties that the fit states for itself: a normal error leaves them in
// three of a thousand.
TEST(TrialFit, GivesBackWhatTheReadingsWereMadeWithWithinItsUncertainty) {
  const Fit& found = of_shipped();
  EXPECT_TRUE(found.agrees) << found.chi_squared << " of " << found.redundancy;
  for (std::size_t i = 0; i < inputs; ++i) {
    EXPECT_NEAR(found.fitted[i].value, truth()[i], 3 * found.fitted[i].u) << i;
    EXPECT_LT(found.fitted[i].u, found.fitted[i].prior_u) << i;
  }
  // What the tests are for: the brake's share is told to a third of what the layout left open.
  EXPECT_LT(found.fitted[0].u, found.fitted[0].prior_u / 3);
}

// A law of draws: over seeds, chi-squared averages its redundancy, and the misses their uncertainty. Of six seeds the
// mean of chi-squared is off by no more than 3 of its standard deviations, sqrt(2 / (6 redundancy)); readings are
// printed rounded and the main line's spread adds to their uncertainty, so it may be less.
TEST(TrialFit, StatesUncertaintiesThatDrawsBearOut) {
  constexpr int seeds = 6;
  double chi = 0, misses = 0;
  int redundancy = 0;
  for (int s = 1; s <= seeds; ++s) {
    const Fit found = fitted(results_text(Truth{}, static_cast<std::uint64_t>(s)));
    chi += found.chi_squared / seeds;
    redundancy = found.redundancy;
    const double off = (found.fitted[0].value - truth()[0]) / found.fitted[0].u;
    misses += off * off;
  }
  EXPECT_LT(chi / redundancy, 1 + 3 * std::sqrt(2.0 / (seeds * redundancy)));
  EXPECT_LT(misses, 22.5);  // chi-squared of 6 degrees is above that once in a thousand
}

TEST(TrialFit, NamesWhatItCanNotTellApart) {
  // One mass at one release, its arrival speed alone: rolling resistance and drag can not be parted, the brake is not
  // seen at all.
  std::string few = "test,quantity,value,unit,uncertainty\n";
  for (const TrialRow& row : rows_of(results_text(Truth{}, demo_seed)))
    if (row.item == "M9" && (row.what == Trialled::mass || row.what == Trialled::release ||
                             row.what == Trialled::wind || row.what == Trialled::arrival_speed))
      few += row.source_line + '\n';
  const Fit found = fitted(few);
  ASSERT_GE(found.untold.size(), 3u);
  EXPECT_NEAR(found.fitted[0].u, found.fitted[0].prior_u, 1e-9);
  EXPECT_LT(found.correlation[1][2], -0.1);
  for (const Untold& way : found.untold) {
    double length = 0;
    for (const double part : way.direction) length += part * part;
    EXPECT_NEAR(length, 1, 1e-9);
    EXPECT_GT(way.left, untold_share);
    EXPECT_LE(way.left, 1 + 1e-9);
  }
}

TEST(TrialFit, AReadingThatNothingExplainsIsNotBelievedAndNothingIsJudgedByIt) {
  auto rows = rows_of(results_text(Truth{}, demo_seed));
  for (TrialRow& row : rows)
    if (row.item == "M8" && row.what == Trialled::stopping_travel) row.value += 1.5;
  const auto results = compare(demo_rig(), demo_plan(), "tests.csv", std::move(rows));
  ASSERT_TRUE(results);
  const Learnt learnt = learn(demo_rig(), demo_plan(), *results);
  ASSERT_TRUE(learnt.fit) << learnt.fit.error().why << learnt.fit.error().residual;
  EXPECT_FALSE(learnt.fit->agrees);
  EXPECT_FALSE(learnt.judged->has_value());
  const auto worst =
      std::ranges::max_element(learnt.fit->residuals, {}, [](const FitResidual& r) { return std::abs(r.over_u); });
  EXPECT_EQ(demo_plan().tests[worst->test].id, "M8");
}

TEST(TrialFit, WithoutAMassLetGoThereIsNone) {
  const auto results = compare(demo_rig(), demo_plan(), "tests.csv",
                               rows_of("test,quantity,value,unit,uncertainty\nH1,pull_on,49,N,1\n"));
  ASSERT_TRUE(results);
  EXPECT_FALSE(fit(demo_rig(), demo_plan(), *results));
}

TEST(TrialFit, TheFittedLayoutKeepsWhatADayDoesNotSee) {
  const Layout drawn = demo_rig().layout;
  const auto layout = with_fitted(drawn, of_shipped());
  ASSERT_TRUE(layout);
  const Range &before = *drawn.riders.rolling_resistance, &after = *layout->riders.rolling_resistance;
  EXPECT_LE(after.low, before.low);
  EXPECT_GE(after.high, before.high);
  const auto& [brake, rolling, drag, pull] = of_shipped().fitted;
  // Both ends: strong as fitted, weak as fitted and then as much again as the layout leaves hot, wet or worn.
  const double share = brake.value * pull.value, high = 1 + layout->brake_unit.tolerance,
               low = (1 - layout->brake_unit.tolerance) * layout->brake_unit.force_left;
  EXPECT_GT(high, share);
  EXPECT_LT(low, 0.95 * share);
  EXPECT_NEAR(high - share, share - low / 0.95, 1e-9);
  EXPECT_EQ(layout->riders.drag_area_m2->value, drag.value);
}

TEST(TrialFit, IsTheSameOnAnyNumberOfThreads) {
  const auto results = compare(demo_rig(), demo_plan(), "tests.csv", rows_of(results_text(Truth{}, demo_seed)));
  ASSERT_TRUE(results);
  const auto one = fit(demo_rig(), demo_plan(), *results, {.threads = 1});
  ASSERT_TRUE(one);
  for (std::size_t i = 0; i < inputs; ++i) EXPECT_EQ(one->fitted[i].value, of_shipped().fitted[i].value);
}

}  // namespace
}  // namespace fairlead::trial

// Predicted against measured: within, outside and at the edge, against limits, and what was not measured.
#include "geometry/trial/results.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "tests/trial/made.hpp"

namespace fairlead::trial {
namespace {

const std::string& shipped_text() {
  static const std::string text = results_text(Truth{}, demo_seed);
  return text;
}

Results compared(std::vector<TrialRow> rows) {
  auto results = compare(demo_rig(), demo_plan(), "tests.csv", std::move(rows), {.threads = 2});
  if (!results) throw std::runtime_error(results.error().first.front().message);
  return std::move(*results);
}

const Tested& tested(const Results& results, std::string_view id) {
  for (const Tested& one : results.tested)
    if (demo_plan().tests[one.test].id == id) return one;
  throw std::runtime_error("no such test");
}

const Compared& number(const Results& results, std::string_view id, Trialled what) {
  for (const Compared& one : tested(results, id).compared)
    if (one.expected.what == what) return one;
  throw std::runtime_error("no such number");
}

TrialRow& row(std::vector<TrialRow>& rows, std::string_view id, Trialled what) {
  const auto found =
      std::ranges::find_if(rows, [&](const TrialRow& one) { return one.item == id && one.what == what; });
  if (found == rows.end()) throw std::runtime_error("no such row");
  return *found;
}

TEST(TrialResults, TheShippedFileIsWhatTheseTruthsAndDrawsMake) {
  std::ifstream file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_trial.csv");
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  EXPECT_EQ(text, shipped_text());
}

TEST(TrialResults, AllThatComesAsPredictedAndKeepsItsLimitsPasses) {
  const Results results = compared(rows_of(shipped_text()));
  for (const Tested& one : results.tested) {
    EXPECT_EQ(one.verdict, Verdict::pass) << demo_plan().tests[one.test].id;
    for (const Compared& each : one.compared)
      if (each.value && each.verdict != Verdict::pass)
        ADD_FAILURE() << demo_plan().tests[one.test].id << ' ' << kind_of(each.expected.what).word << ' ' << *each.value
                      << (each.expected.predicted
                              ? fmt::format(" in {}..{}", each.expected.predicted->low, each.expected.predicted->high)
                              : "");
  }
  EXPECT_EQ(results.verdict, Verdict::pass);
}

TEST(TrialResults, WhatWasNotMeasuredOrNotMadeIsUndeterminedNeverAssumed) {
  const Results nothing = compared({});
  EXPECT_EQ(nothing.verdict, Verdict::undetermined);
  for (const Tested& one : nothing.tested) EXPECT_EQ(one.verdict, Verdict::undetermined);

  auto rows = rows_of(shipped_text());
  std::erase_if(rows, [](const TrialRow& one) { return one.item == "M4" && one.what == Trialled::stopping_travel; });
  const Results one_less = compared(std::move(rows));
  EXPECT_EQ(tested(one_less, "M4").verdict, Verdict::undetermined);
  EXPECT_EQ(number(one_less, "M4", Trialled::stopping_travel).agreement, Agreement::not_measured);
  EXPECT_EQ(tested(one_less, "M3").verdict, Verdict::pass);
  EXPECT_EQ(one_less.verdict, Verdict::undetermined);
}

TEST(TrialResults, WithoutAMassOrAReleaseNothingIsPredicted) {
  for (const Trialled what : {Trialled::mass, Trialled::release}) {
    auto rows = rows_of(shipped_text());
    std::erase_if(rows, [&](const TrialRow& one) { return one.item == "M2" && one.what == what; });
    const Results results = compared(std::move(rows));
    EXPECT_EQ(number(results, "M2", Trialled::arrival_speed).agreement, Agreement::not_predicted);
    EXPECT_EQ(tested(results, "M2").verdict, Verdict::undetermined) << kind_of(what).word;
  }
}

// 1.96 standard uncertainties either way.
TEST(TrialResults, OutsideTheIntervalFailsOnEitherSideAndAReadingThatAgreesWithAnythingIsUndetermined) {
  const Results at = compared(rows_of(shipped_text()));
  const Span span = *number(at, "M5", Trialled::stopping_travel).expected.predicted;
  const auto with = [&](double value, double u) {
    auto rows = rows_of(shipped_text());
    row(rows, "M5", Trialled::stopping_travel).value = value;
    row(rows, "M5", Trialled::stopping_travel).uncertainty = u;
    return compared(std::move(rows));
  };
  const double u = 0.01,
               rough = std::max(span.high - span.low, telling_share * (span.low + span.high) / 2) / either_way;
  for (const auto& [value, uncertainty, agreement, verdict] :
       {std::tuple{span.low - 0.0197, u, Agreement::outside, Verdict::fail},
        std::tuple{span.low - 0.0195, u, Agreement::within, Verdict::pass},
        std::tuple{span.high + 0.0195, u, Agreement::within, Verdict::pass},
        std::tuple{span.high + 0.0197, u, Agreement::outside, Verdict::fail},
        std::tuple{span.low, 0.999 * rough, Agreement::within, Verdict::pass},
        std::tuple{span.low, 1.001 * rough, Agreement::too_rough, Verdict::undetermined}}) {
    const Results results = with(value, uncertainty);
    EXPECT_EQ(number(results, "M5", Trialled::stopping_travel).agreement, agreement) << value;
    EXPECT_EQ(tested(results, "M5").verdict, verdict) << value;
  }
}

TEST(TrialResults, ABrokenStopCriterionFailsWhateverElseWasRead) {
  for (const auto& [what, seen] : {std::pair{Trialled::touches, 1.0}, std::pair{Trialled::slack, 1.0},
                                   std::pair{Trialled::backup_reached, 1.0}, std::pair{Trialled::returned, 0.0}}) {
    auto rows = rows_of(shipped_text());
    row(rows, "M7", what).value = seen;
    const Results results = compared(std::move(rows));
    EXPECT_EQ(tested(results, "M7").verdict, Verdict::fail) << kind_of(what).word;
    EXPECT_EQ(results.verdict, Verdict::fail);
  }
}

// It was pushed back: how long that took and where it was put say nothing of the return that was asked for.
TEST(TrialResults, OfATrolleyThatDidNotComeBackNeitherTimeNorPlaceIsJudged) {
  for (const char* id : {"H2", "M7"}) {
    auto rows = rows_of(shipped_text());
    row(rows, id, Trialled::returned).value = 0;
    const Results results = compared(std::move(rows));
    for (const Trialled what : {Trialled::return_time, Trialled::rest_shift}) {
      EXPECT_EQ(number(results, id, what).agreement, Agreement::no_return) << id;
      EXPECT_EQ(number(results, id, what).verdict, Verdict::not_judged) << id;
      EXPECT_EQ(number(results, id, what).limit, Verdict::not_judged) << id;
    }
    EXPECT_EQ(number(results, id, Trialled::extension).verdict, Verdict::pass) << id;
    EXPECT_EQ(tested(results, id).verdict, Verdict::fail) << id;
  }
}

// Against the limit 150 mm, by JCGM106's one-sided 95 %: 1.645 standard uncertainties.
TEST(TrialResults, AgainstALimitTheUncertaintyCountsOnOneSideAndEitherSenseOfAShift) {
  for (const double sign : {1.0, -1.0})
    for (const auto& [mm, verdict] : {std::pair{141.0, Verdict::pass}, std::pair{143.0, Verdict::undetermined},
                                      std::pair{157.0, Verdict::undetermined}, std::pair{159.0, Verdict::fail}}) {
      auto rows = rows_of(shipped_text());
      row(rows, "H2", Trialled::rest_shift).value = sign * mm / 1000;
      EXPECT_EQ(tested(compared(std::move(rows)), "H2").verdict, verdict) << sign * mm;
    }
}

TEST(TrialResults, NothingNotANumberPasses) {
  auto rows = rows_of(shipped_text());
  row(rows, "M5", Trialled::stopping_travel).value = std::nan("");
  EXPECT_NE(tested(compared(std::move(rows)), "M5").verdict, Verdict::pass);
}

TEST(TrialResults, AWindThatWasMeasuredNarrowsWhatIsPredicted) {
  const auto width = [](const Results& results) {
    const Span& span = *number(results, "M9", Trialled::arrival_speed).expected.predicted;
    return span.high - span.low;
  };
  auto rows = rows_of(shipped_text());
  const double known = width(compared(rows));
  std::erase_if(rows, [](const TrialRow& one) { return one.what == Trialled::wind; });
  EXPECT_GT(width(compared(std::move(rows))), 1.5 * known);
}

TEST(TrialResults, WhatThePlanDoesNotHaveIsRefusedAtItsLineAllAtOnce) {
  const auto results = compare(demo_rig(), demo_plan(), "tests.csv",
                               rows_of("test,quantity,value,unit,uncertainty\n"
                                       "M12,mass,50,kg,0.1\n"
                                       "X,mass,50,kg,0.1\n"
                                       "H1,mass,50,kg,0.1\n"
                                       "M1,pull_on,50,N,1\n"
                                       "M1,release,190,m,0.1\n"
                                       "M1,temperature,45,C,1\n"));
  ASSERT_FALSE(results);
  std::string all;
  for (const PointsError& e : results.error().first)
    all += fmt::format("{}:{}: {}; {}\n", e.line, e.column, e.message, e.instead);
  EXPECT_EQ(all,
            "2:1: the plan has no test \"M12\"; did you mean \"M1\"?\n"
            "3:1: the plan has no test \"X\"; known: H1, H2, H3, M1, M2, M3, M4, M5, M6, M7, M8, M9\n"
            "4:4: test H1 has no mass to measure; known: pull_on, let_back, extension\n"
            "5:4: test M1 has no pull_on to measure; known: mass, release, temperature, wind, arrival_speed, "
            "stopping_travel, extension, line_tension, touches, slack, backup_reached, returned, return_time, "
            "rest_shift\n"
            "6:12: the release is at chainage 190.000 m; it may be from 69.000 m to 188.000 m, short of the brake "
            "trolley\n"
            "7:16: the temperature is 45.0 °C; the layout was judged from -15.0 °C to 35.0 °C: check it, or widen "
            "site.coldest and site.warmest\n");
}

}  // namespace
}  // namespace fairlead::trial

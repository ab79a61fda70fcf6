// Files of trial results: what reads, and what is refused in which words.
#include "geometry/survey/results_file.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace fairlead {
namespace {

std::string errors(std::string_view text) {
  const auto read = read_trial_results(text);
  if (read) return "it reads";
  std::string all;
  for (const PointsError& e : read.error().first)
    all += fmt::format("{}:{}+{}: {}; {}\n", e.line, e.column, e.length, e.message, e.instead);
  return all;
}

TEST(ResultsFile, NumbersStandInTheUnitOfTheirLineAndCountsHaveNone) {
  const auto read = read_trial_results(
      "test,quantity,value,unit,uncertainty\n"
      "M1,arrival_speed,18,km/h,0.36\n"
      "M1,touches,0,,\n"
      "H2,rest_shift,-12,mm,2\n");
  ASSERT_TRUE(read) << errors("");
  ASSERT_EQ(read->size(), 3u);
  EXPECT_EQ((*read)[0].what, Trialled::arrival_speed);
  EXPECT_NEAR((*read)[0].value, 5, 1e-12);
  EXPECT_NEAR((*read)[0].uncertainty, 0.1, 1e-12);
  EXPECT_EQ((*read)[1].what, Trialled::touches);
  EXPECT_EQ((*read)[1].value, 0);
  EXPECT_EQ((*read)[1].uncertainty, 0);
  EXPECT_NEAR((*read)[2].value, -0.012, 1e-15);
}

TEST(ResultsFile, EverythingWrongIsToldAtOnceWithWhatToWriteInstead) {
  EXPECT_EQ(errors("test,quantity,value,unit,uncertainty\n"
                   ",mass,50,kg,0.1\n"
                   "M1,speed,5,m/s,0.1\n"
                   "M1,arrival_speed,5,kg,0.1\n"
                   "M4,arrival_speed,250,m/s,0.1\n"
                   "M1,touches,0.5,,\n"
                   "M1,slack,0,m,\n"
                   "M1,returned,2,,\n"
                   "M2,mass,50,kg,0\n"
                   "M3,mass,50,kg,1\n"
                   "M3,mass,51,kg,1\n"),
            "2:1+1: the result has no test; write the test's name in the plan: H1, M1, ...\n"
            "3:4+5: there is no quantity \"speed\"; known: mass, release, temperature, wind, arrival_speed, "
            "stopping_travel, extension, line_tension, pull_on, let_back, return_time, rest_shift, returned, touches, "
            "slack, backup_reached\n"
            "4:20+2: \"kg\" is no unit of a speed; write one of m/s, km/h, ft/s, mph\n"
            "5:18+3: the arrival_speed is 250.00 m/s; it may be from 0.00 m/s to 100.00 m/s: check it and its unit\n"
            "6:12+3: \"touches\" is 0.5; write a whole number from 0 to 1000\n"
            "7:12+1: \"slack\" is counted, and has neither unit nor uncertainty; leave the column empty\n"
            "8:13+1: \"returned\" is 2; write a whole number from 0 to 1\n"
            "9:15+1: the uncertainty is not above 0; write one standard uncertainty, in the unit of the value\n"
            "11:1+2: the mass of \"M3\" stands in line 10 already; give the mean of both with its uncertainty, or "
            "remove one of the two\n");
  EXPECT_EQ(errors(""),
            "0:0+1: there is no result in the file; begin it with test,quantity,value,unit,uncertainty and write a "
            "line for each\n");
  EXPECT_EQ(errors("item,quantity,value,unit,uncertainty\n"),
            "1:1+4: there is no column \"item\"; known: test, quantity, value, unit, uncertainty\n");
  EXPECT_EQ(errors("M1,mass,50,kg,0.1\n"),
            "1:1+17: the first line is no header: it names no column; begin the file with a line like "
            "test,quantity,value,unit,uncertainty\n");
}

}  // namespace
}  // namespace fairlead

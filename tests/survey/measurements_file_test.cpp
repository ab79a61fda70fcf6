// Files of measurements: what reads, and what is refused in which words.
#include "geometry/survey/measurements_file.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace fairlead {
namespace {

const std::string head = "item,quantity,value,unit,uncertainty\n";

std::string printed(const PointsErrors& errors) {
  std::string text;
  for (const PointsError& e : errors.first)
    text += fmt::format("{}:{}+{}: {}; {}\n", e.line, e.column, e.length, e.message, e.instead);
  return errors.more > 0 ? text + fmt::format("{} more\n", errors.more) : text;
}

std::vector<Measurement> measured(std::string_view text) {
  auto read = read_measurements(text);
  EXPECT_TRUE(read) << printed(read.error());
  return read ? std::move(*read) : std::vector<Measurement>{};
}

std::string errors(std::string_view text) {
  const auto read = read_measurements(text);
  return read ? "it reads" : printed(read.error());
}

// NIST-SP811: the pound force is 4.448222 N. A degree of Fahrenheit is five ninths of a kelvin, 32 F are 273.15 K.
TEST(MeasurementsFile, ValuesAndUncertaintiesStandInTheUnitOfTheirLine) {
  const auto all = measured(head +
                            "main_line,tension,4000,lbf,20\n"
                            "# a comment\n"
                            "main_line,temperature,50,F,9\n"
                            "\"line, upper\",length,12.5,m,0.005\n"
                            "R1,bearing,90,deg,0.5\n"
                            "R1,tilt,-2,deg,0.5\n");
  ASSERT_EQ(all.size(), 5u);
  EXPECT_EQ(all[0].item, "main_line");
  EXPECT_EQ(all[0].measurand, Measurand::tension);
  EXPECT_NEAR(all[0].value, 4000 * 4.448222, 0.002);
  EXPECT_NEAR(all[0].uncertainty, 20 * 4.448222, 1e-5);
  EXPECT_NEAR(all[1].value, 283.15, 1e-9);
  EXPECT_NEAR(all[1].uncertainty, 5, 1e-12);  // a difference: no zero is added to it
  EXPECT_EQ(all[1].line, 4u);
  EXPECT_EQ(all[2].item, "line, upper");
  EXPECT_EQ(all[2].value, 12.5);
  EXPECT_EQ(all[2].item_at, (Columns{1, 13}));
  EXPECT_EQ(all[2].quantity_at, (Columns{15, 6}));
  EXPECT_NEAR(all[3].value, std::numbers::pi / 2, 1e-15);
  EXPECT_LT(all[4].value, 0);
}

TEST(MeasurementsFile, TheHeaderNamesTheColumnsInAnyOrder) {
  const auto all = measured("Unit,VALUE,uncertainty,item,quantity\nmm,400,2,brake_unit,rest_extension\n");
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].value, 0.4);
  EXPECT_EQ(all[0].uncertainty, 0.002);
  EXPECT_EQ(errors("item,quantity,value,unit\nA,rest,1,m\n"),
            "1:1+24: the header does not name the column uncertainty; begin the file with a line like "
            "item,quantity,value,unit,uncertainty\n");
  EXPECT_EQ(errors("item,quantity,value,unit,uncertanty\n"),
            "1:26+10: there is no column \"uncertanty\"; did you mean \"uncertainty\"?\n");
  EXPECT_EQ(errors("item,item,value,unit,uncertainty\n"),
            "1:6+4: the column \"item\" is there already; remove one of them\n");
}

TEST(MeasurementsFile, AllErrorsAreToldAtOnceEachWithItsPlaceAndWhatToWrite) {
  EXPECT_EQ(errors(head + "main_line,tension,18,m,1\n"
                          "brake_unit,rest_extention,0.4,m,0.002\n"
                          "brake_trolley,rest,1O3,m,-1\n"
                          "L1,length,12,5,m,0.01\n"
                          ",rest,1,m,0.1\n"
                          "R1,tilt,100,deg,1\n"
                          "main_line,sag,nan,m,0\n"),
            "2:22+1: \"m\" is no unit of a force; write one of N, daN, kN, MN, kgf, lbf, kip\n"
            "3:12+14: there is no quantity \"rest_extention\"; did you mean \"rest_extension\"?\n"
            "4:20+3: the value \"1O3\" is no number; write it like 12.345; its unit has a column of its own\n"
            "4:26+2: the uncertainty is not above 0; write one standard uncertainty, in the unit of the value\n"
            "5:1+21: the line has 6 columns, and the header 5; separate the columns by commas, and write decimals "
            "with a point\n"
            "6:1+1: the measurement has no item; write the id of what was measured, main_line, brake_unit, or two "
            "marks like \"P1 to A3\"\n"
            "7:9+3: the tilt is 100.00 deg; it may be from -90.00 deg to 90.00 deg: check it and its unit\n"
            "8:15+3: the value \"nan\" is no number; write it like 12.345; its unit has a column of its own\n"
            "8:21+1: the uncertainty is not above 0; write one standard uncertainty, in the unit of the value\n");
}

TEST(MeasurementsFile, NothingIsMeasuredTwice) {
  EXPECT_EQ(errors(head + "R1,tilt,1,deg,1\nR1,bearing,1,deg,1\nR1,tilt,2,deg,1\n"),
            "4:1+2: the tilt of \"R1\" stands in line 2 already; give the mean of both with its uncertainty, or remove "
            "one of the two\n");
}

TEST(MeasurementsFile, WhatIsNoTextOrHasNoMeasurementIsRefused) {
  const std::string none =
      "0:0+1: there is no measurement in the file; begin it with item,quantity,value,unit,uncertainty and write a line "
      "for each\n";
  EXPECT_EQ(errors(""), none);
  EXPECT_EQ(errors("# nothing\n\n"), none);
  EXPECT_EQ(errors(head), none);
  EXPECT_EQ(errors("\xFF\xFEi\0t\0"), "0:0+1: the file is UTF-16; save it as UTF-8\n");
  EXPECT_EQ(errors(head + "R1,tilt\x01,1,deg,1\n"), "2:8+1: byte 0x01 is a control character; remove it\n");
}

TEST(MeasurementsFile, ManyErrorsEndInTheirNumberAndAFileWithoutEndIsRefused) {
  std::string text = head;
  for (int i = 0; i < 300; ++i) text += "R1,tilt,x,deg,1\n";
  const auto read = read_measurements(text);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().first.size(), 200u);
  EXPECT_EQ(read.error().more, 399u);  // and each but the first stands twice
  EXPECT_EQ(errors(std::string(largest_measurements_file + 1, 'x')),
            "0:0+1: the file has 1048577 bytes, and a file of measurements at most 1048576; leave only the "
            "measurements of this rig in it\n");
}

}  // namespace
}  // namespace fairlead

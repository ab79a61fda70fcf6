// Points files: what reads, what is refused in which words, and that what is written reads back.
#include "geometry/survey/points_file.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace fairlead {
namespace {

constexpr PointsFormat metres{PointsOrder::pnezd, PointsUnit::m};
constexpr PointsFormat named{PointsOrder::named, PointsUnit::m};

std::string printed(const PointsErrors& errors) {
  std::string text;
  for (const PointsError& e : errors.first)
    text += fmt::format("{}:{}+{}: {}; {}\n", e.line, e.column, e.length, e.message, e.instead);
  return errors.more > 0 ? text + fmt::format("{} more\n", errors.more) : text;
}

std::vector<SurveyPoint> points(std::string_view text, const PointsFormat& format = metres) {
  auto read = read_points(text, format);
  EXPECT_TRUE(read) << printed(read.error());
  return read ? std::move(*read) : std::vector<SurveyPoint>{};
}

std::string errors(std::string_view text, const PointsFormat& format = metres) {
  const auto read = read_points(text, format);
  return read ? "it reads" : printed(read.error());
}

TEST(PointsFile, NorthingAndEastingStandInTheStatedOrder) {
  const std::string text = "A1,10.5,20.25,-3,bolt\nA2,1,2,3,\n";
  EXPECT_EQ(points(text), (std::vector<SurveyPoint>{{"A1", {20.25, 10.5, -3}, "bolt", 1}, {"A2", {2, 1, 3}, "", 2}}));
  EXPECT_EQ(points(text, {PointsOrder::penzd, PointsUnit::m})[0].at, (Point3{10.5, 20.25, -3}));
}

TEST(PointsFile, AHeaderNamesTheColumnsInAnyOrder) {
  EXPECT_EQ(points("Description, elevation ,POINT,easting,northing\nbolt,3,A1,1,2\n", named),
            (std::vector<SurveyPoint>{{"A1", {1, 2, 3}, "bolt", 2}}));
  EXPECT_EQ(points("id,n,e,z\nA1,2,1,3\n", named)[0].at, (Point3{1, 2, 3}));
}

// YP59: the foot is 0.3048 m. NIST-SP811: the US survey foot is 1200/3937 m, 2 millionths more.
TEST(PointsFile, TheUnitIsTheStatedOne) {
  const std::string text = "A1,1000000,2000,100\n";
  EXPECT_DOUBLE_EQ(points(text, {PointsOrder::pnezd, PointsUnit::ft})[0].at.y, 304800);
  EXPECT_DOUBLE_EQ(points(text, {PointsOrder::pnezd, PointsUnit::us_survey_ft})[0].at.y, 1e6 * 1200 / 3937);
  EXPECT_DOUBLE_EQ(points(text, {PointsOrder::pnezd, PointsUnit::mm})[0].at.x, 2);
}

TEST(PointsFile, AMarkLiesBelowItsTargetByTheOffset) {
  EXPECT_EQ(points("A1,1,2,10\n", {PointsOrder::pnezd, PointsUnit::m, 1.5})[0].at.z, 8.5);
  const auto both =
      points("point,target_offset,n,e,z\nA1,1500,0,0,10000\nA2,0,0,0,10000\n", {PointsOrder::named, PointsUnit::mm});
  EXPECT_DOUBLE_EQ(both[0].at.z, 8.5);
  EXPECT_DOUBLE_EQ(both[1].at.z, 10);
  EXPECT_EQ(errors("point,target_offset,n,e,z\nA1,1,0,0,10\n", {PointsOrder::named, PointsUnit::m, 1.5}),
            "1:7+13: the offset of the targets is stated for the whole file already; state it once: in this column, or "
            "for the whole file\n");
  EXPECT_EQ(errors("point,target_offset,n,e,z\nA1,1500,0,0,10\n", named),
            "2:4+4: the target_offset is 1500 m, beyond 10 m; check it, and the unit of the file, \"m\"\n");
}

// RFC4180.
TEST(PointsFile, TextsWithACommaStandInQuotesAndAQuoteInThemTwice) {
  EXPECT_EQ(points("\"A,1\",1,2,3, \"oak, 12\"\" thick\" \n")[0],
            (SurveyPoint{"A,1", {2, 1, 3}, "oak, 12\" thick", 1}));
  EXPECT_EQ(points("A1,\"1\",2,3,\"\"\n")[0].at.y, 1);
  EXPECT_EQ(
      errors("A1,1,2,3,12\" oak\nA2,1,2,3,\"open\nA3,1,2,3,\"a\" b\n"),
      "1:12+1: a quote stands inside a text without quotes; put the whole text in quotes and write the quote inside "
      "it twice\n"
      "2:10+5: the quote that opens here is not closed in this line; close it; a quote inside a text is written "
      "twice\n"
      "3:14+1: text follows behind the closing quote; put the whole text in quotes; a quote inside it is written "
      "twice\n");
}

TEST(PointsFile, CommentsBlankLinesBlanksLineEndsAndAByteOrderMarkSayNothing) {
  const auto plain = points("A1,1,2,3,b\nA2,1,2,3,c\n");
  const auto dressed =
      points("\xEF\xBB\xBF# by the crew, \"quoted\"\r\n\r\n A1 ,\t1, +2 ,3 , b\r\n  # more\r\nA2,1,2,3,c");
  ASSERT_EQ(dressed.size(), 2u);
  EXPECT_EQ(dressed[0].line, 3u);
  EXPECT_EQ(dressed[1].line, 5u);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(dressed[i].id, plain[i].id);
    EXPECT_EQ(dressed[i].at, plain[i].at);
    EXPECT_EQ(dressed[i].description, plain[i].description);
  }
}

TEST(PointsFile, ADecimalCommaIsFoundByTheNumberOfColumns) {
  EXPECT_EQ(errors("A1,1,5,2,5,3,5,bolt\n"),
            "1:1+19: the line has 8 columns, and the order \"pnezd\" has five, or four without descriptions; write "
            "decimals with a point: 1.5, not 1,5\n");
  // With one such comma among lines without descriptions: a number would have become one.
  EXPECT_EQ(
      errors("A1,1,2,3\nA2,1,5,2,3\n"),
      "2:1+10: the line has 5 columns, and line 1, the first, has 4; put a text that holds a comma in quotes, and "
      "write decimals with a point\n");
  EXPECT_EQ(
      errors("A1;1.5;2.5;3\n"),
      "1:1+12: the line has 1 column, and the order \"pnezd\" has five, or four without descriptions; separate the "
      "columns by commas, not semicolons, and write decimals with a point\n");
}

TEST(PointsFile, ANumberIsWholeFiniteAndNear) {
  EXPECT_EQ(errors("A1,x,1.5m,\n"),
            "1:4+1: the northing \"x\" is no number; write it like 1234.567\n"
            "1:6+4: the easting \"1.5m\" is no number; write 1.5; the unit is stated once, for the whole file\n"
            "1:11+1: the elevation is missing; write a number\n");
  EXPECT_EQ(errors("A1,inf,nan,1e999,\n"),
            "1:4+3: the northing \"inf\" is no number; write it like 1234.567\n"
            "1:8+3: the easting \"nan\" is no number; write it like 1234.567\n"
            "1:12+5: the elevation \"1e999\" is no number; write it like 1234.567\n");
  EXPECT_EQ(errors("A1,10000000.1,-20000000,10000000,\n"),
            "1:4+10: the northing is 10000000.1 m, beyond 10000000 m; check it, and the unit of the file, \"m\"\n"
            "1:15+9: the easting is -20000000 m, beyond 10000000 m; check it, and the unit of the file, \"m\"\n");
  EXPECT_EQ(errors("A1,20000000,1,1,\n", {PointsOrder::pnezd, PointsUnit::ft}), "it reads");
  EXPECT_EQ(errors("A1,1 234,0x10,+-1,\n"),
            "1:4+5: the northing \"1 234\" is no number; write it like 1234.567\n"
            "1:10+4: the easting \"0x10\" is no number; write 0; the unit is stated once, for the whole file\n"
            "1:15+3: the elevation \"+-1\" is no number; write it like 1234.567\n");
}

TEST(PointsFile, EveryPointHasAnIdOfItsOwn) {
  EXPECT_EQ(errors("A1,1,2,3\nÄ,1,2,3\n,1,2,3\nA1,1,2,3\n\" A1\",1,2,3\nÄ,x,2,3\nA1,1,2,3\n"),
            "3:1+1: the point has no id; give it one of its own\n"
            "4:1+2: the point \"A1\" stands in line 1 already; give it an id of its own, or remove one of the two\n"
            "6:1+1: the point \"Ä\" stands in line 2 already; give it an id of its own, or remove one of the two\n"
            "6:3+1: the northing \"x\" is no number; write it like 1234.567\n"
            "7:1+2: the point \"A1\" stands in line 1 already; give it an id of its own, or remove one of the two\n");
}

TEST(PointsFile, AHeaderMustNameWhatAPointNeedsAndNothingUnknown) {
  EXPECT_EQ(errors("A1,1,2,3,bolt\n", named).substr(0, 24), "1:1+2: there is no colum");
  EXPECT_EQ(errors("point,northing,up,description\nA1,1,2,x\n", named),
            "1:1+29: the header does not name the column easting; begin the file with a line like "
            "point,northing,easting,elevation,description\n");
  EXPECT_EQ(errors("point,x,northin,easting,east,code\nA1,1,2,x\n", named),
            "1:7+1: \"x\" may count to the north or to the east; write \"northing\" or \"easting\"\n"
            "1:9+7: there is no column \"northin\"; did you mean \"northing\"?\n"
            "1:25+4: the column \"easting\" is there already; remove one of them\n"
            "1:30+4: there is no column \"code\"; known: point, northing, easting, elevation, description, "
            "target_offset\n");
  EXPECT_EQ(errors("point,northing,easting,elevation,description\nA1,1,2,3,x\n"),
            "1:1+5: this is a header, and a points file of the order \"pnezd\" has none; remove the line, or state the "
            "order \"named\"\n");
}

TEST(PointsFile, WhatIsNoTextOrHoldsNoPointIsRefusedWhole) {
  for (const char* nothing : {"", "\n\n", "# only a comment\n", "point,n,e,z\n"})
    EXPECT_EQ(errors(nothing, named), "0:0+1: there is no point in the file; write a line for each point\n") << nothing;
  EXPECT_EQ(errors("A1,1,2,3\nA2,1,2,3,M\xFCnster\n"), "2:11+1: byte 0xFC is no UTF-8 text; save the file as UTF-8\n");
  EXPECT_EQ(errors(std::string_view("A1,1,2,3\0\n", 10)), "1:9+1: byte 0x00 is a control character; remove it\n");
  EXPECT_EQ(errors("A1,1,2,3\rA2,1,2,3\r"), "1:9+1: byte 0x0D is a control character; end lines with a line feed\n");
  EXPECT_EQ(errors("\xFF\xFE"
                   "A"),
            "0:0+1: the file is UTF-16; save it as UTF-8\n");
  const std::string large(largest_points_file + 1, ' ');
  EXPECT_EQ(
      errors(large),
      "0:0+1: the file has 67108865 bytes, and a points file at most 67108864; leave only the points of this rig in "
      "it\n");
  EXPECT_EQ(errors("A1,1,2,3," + std::string(70000, 'x')),
            "1:1+1: the line is longer than 65536 bytes; a point has a line of its own\n");
}

TEST(PointsFile, ErrorsWithoutEndEndInTheirNumberAndTheFirstAreTheFirstOfTheFile) {
  std::string text;
  for (int i = 0; i < 1000; ++i) text += fmt::format("{},1,2,{}\n", i == 3 ? 2 : i, i == 1 || i > 500 ? "x" : "3");
  const auto read = read_points(text, metres);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().first.size(), 200u);
  EXPECT_EQ(read.error().more, 1 + 499 + 1 - 200u);
  EXPECT_EQ(read.error().first[0].line, 2u);
  EXPECT_EQ(read.error().first[1].message, "the point \"2\" stands in line 3 already");
  EXPECT_EQ(read.error().first[2].line, 502u);
  EXPECT_EQ(read.error().first[0].source_line, "1,1,2,x");
}

// Written digits: four of a metre or foot, one of a millimetre: half the last is 0.05 mm or less. Reading and the
// change of unit round by 1e-16 of 1e7 m.
TEST(PointsText, WhatIsWrittenReadsBackWithinATwentiethOfAMillimetre) {
  std::mt19937_64 draw(7);
  const auto within = [&](double most) { return most * (2 * static_cast<double>(draw() >> 11) * 0x1p-53 - 1); };
  std::vector<SurveyPoint> all;
  for (int i = 0; i < 200; ++i)
    all.push_back(
        {fmt::format("P{}", i), {within(9e6), within(100), within(3000)}, i % 3 == 0 ? "" : "a, \"b\" # c", 0});
  all.push_back({"# 1", {-1e-9, 0, 1e7}, " blank ends ", 0});
  all.push_back({"a\"b,c", {0.00005, -0.00005, 0}, "Fußpunkt", 0});
  for (const PointsOrder order : {PointsOrder::pnezd, PointsOrder::penzd, PointsOrder::named})
    for (const PointsUnit unit : {PointsUnit::m, PointsUnit::mm, PointsUnit::ft, PointsUnit::us_survey_ft})
      for (const double offset_m : {0., -1.5}) {
        const PointsFormat format{order, unit, offset_m};
        const auto text = points_text(all, format);
        ASSERT_TRUE(text) << text.error().why;
        const auto back = points(*text, format);
        ASSERT_EQ(back.size(), all.size());
        for (std::size_t i = 0; i < all.size(); ++i) {
          EXPECT_EQ(back[i].id, all[i].id);
          EXPECT_EQ(back[i].description, all[i].description);
          for (const auto axis : {&Point3::x, &Point3::y, &Point3::z})
            EXPECT_NEAR(back[i].at.*axis, all[i].at.*axis, 0.05e-3 + 1e-8);
        }
        EXPECT_EQ(points_text(back, format), text) << "what was read is written the same";
      }
}

TEST(PointsText, HasAHeaderOnlyWhereColumnsAreNamedAndNoMinusZero) {
  const std::vector<SurveyPoint> one{{"A1", {1, -0.00001, 12.34567}, "", 0}};
  EXPECT_EQ(points_text(one, metres), "A1,0.0000,1.0000,12.3457,\n");
  EXPECT_EQ(points_text(one, {PointsOrder::penzd, PointsUnit::mm}), "A1,1000.0,0.0,12345.7,\n");
  EXPECT_EQ(points_text(one, named), "point,northing,easting,elevation,description\nA1,0.0000,1.0000,12.3457,\n");
}

TEST(PointsText, AnIdThatBeginsWithAByteOrderMarkIsNotTakenForTheFiles) {
  const std::vector<SurveyPoint> points{{"\xEF\xBB\xBF", {1, 2, 3}, "", 1}};
  const auto text = points_text(points, {PointsOrder::pnezd, PointsUnit::m, 0});
  ASSERT_TRUE(text.has_value());
  const auto read = read_points(*text, {PointsOrder::pnezd, PointsUnit::m, 0});
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->front().id, points.front().id);
}

TEST(PointsText, WhatCouldNotBeReadBackIsNotWritten) {
  const auto why = [](const std::vector<SurveyPoint>& all) {
    const auto text = points_text(all, metres);
    return text ? *text : text.error().why;
  };
  EXPECT_EQ(why({{"", {}, "", 0}}), "the point \"\" has no id");
  EXPECT_EQ(why({{"A", {}, "", 0}, {"A", {}, "", 0}}), "the point \"A\" stands in the list twice");
  EXPECT_EQ(why({{"A", {}, "two\nlines", 0}}), "the point \"A\" has a text that is no line of UTF-8");
  for (const double bad : {std::nan(""), 1.1e7, -HUGE_VAL})
    EXPECT_EQ(why({{"A", {0, bad, 0}, "", 0}}), "the point \"A\" has no place that is known and near enough") << bad;
}

}  // namespace
}  // namespace fairlead

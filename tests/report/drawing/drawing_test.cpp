// Line types, views, clipping and text: what everything on a sheet is made of.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "report/drawing/canvas.hpp"
#include "report/drawing/overlap.hpp"

namespace fairlead::drawing {
namespace {

const Font& font() {
  static const Font opened = Font::open().value();
  return opened;
}

// Source LINES: dash 12 d, long dash 24 d, gap 3 d, dot 0.5 d. At the natural length nothing is stretched.
TEST(Dashes, ALineOfNaturalLengthHasThePatternOfItsType) {
  const double d = 0.25;
  EXPECT_EQ(dashes(LineType::dashed, d, (2 * 15 + 12) * d), (std::vector<double>{12 * d, 3 * d}));
  EXPECT_EQ(dashes(LineType::dash_dot, d, (3 * 30.5 + 24) * d), (std::vector<double>{24 * d, 3 * d, 0.5 * d, 3 * d}));
  EXPECT_EQ(dashes(LineType::dash_double_dot, d, (34 + 24) * d),
            (std::vector<double>{24 * d, 3 * d, 0.5 * d, 3 * d, 0.5 * d, 3 * d}));
  EXPECT_TRUE(dashes(LineType::continuous, d, 100).empty());
}

TEST(Dashes, EveryLineBeginsAndEndsInTheSameDash) {
  for (LineType type : {LineType::dashed, LineType::dash_dot, LineType::dash_double_dot})
    for (double length = 14; length < 200; length *= 1.07) {
      const auto pattern = dashes(type, 0.25, length);
      ASSERT_FALSE(pattern.empty()) << length;
      const double period = std::accumulate(pattern.begin(), pattern.end(), 0.0);
      const double rest = std::fmod(length - pattern.front() + period / 2, period) - period / 2;
      EXPECT_NEAR(rest, 0, 1e-9) << "length " << length;
      // Half a period over one period and a dash is the most a length can miss.
      EXPECT_GE(pattern.front() / ((type == LineType::dashed ? 12 : 24) * 0.25), 2.0 / 3);
      EXPECT_LE(pattern.front() / ((type == LineType::dashed ? 12 : 24) * 0.25), 4.0 / 3);
    }
}

TEST(Dashes, ALineTooShortForItsTypeIsDrawnContinuous) {
  EXPECT_TRUE(dashes(LineType::dash_double_dot, 0.25, 5).empty());
}

TEST(View, TenMetresAtOneToFiftyMeasureTwoHundredMillimetres) {
  const View view{"elevation", {1, 0, 0}, {0, 0, 1}, {5, 0, 2}, {30, 40}, 50};
  EXPECT_EQ(view.of(Point3{5, 99, 2}), (Paper{30, 40}));
  EXPECT_DOUBLE_EQ(length(view.of(Point3{15, 0, 2}) - view.of(Point3{5, 0, 2})), 200);
  EXPECT_DOUBLE_EQ(view.of(Point3{5, 0, 3}).y_mm, 60);
}

// Source FONT: cap height and advance widths of DejaVu Sans Condensed 2.37, units of 1/2048 em, read off its hmtx table
// by separate code. Integers, so exact.
TEST(Font, MetricsAreTheFontsOwn) {
  EXPECT_EQ(font().cap_em(), 1493.0 / 2048);
  const double em = font().cap_em();  // a cap height at which one em is one millimetre
  for (const auto& [text, units] :
       {std::pair{"0", 1172}, {"8", 1172}, {"H", 1386}, {"Ø", 1450}, {"−", 1544}, {"m", 1795}})
    EXPECT_DOUBLE_EQ(font().width_mm(text, em), units / 2048.0) << text;
  for (const char* digit : {"1", "4", "7", "9"})
    EXPECT_EQ(font().width_mm(digit, em), font().width_mm("8", em)) << digit;
  EXPECT_DOUBLE_EQ(font().width_mm("88", 5), 2 * font().width_mm("8", 5));
  EXPECT_DOUBLE_EQ(font().width_mm("M12 − Ø8", 5), 2 * font().width_mm("M12 − Ø8", 2.5));
}

TEST(Font, ACharacterItLacksIsNamedByItsCodePoint) {
  EXPECT_EQ(font().missing("Żółć Ø16 ⌀ ≤ ° − × Σ Æ Győr"), "");
  EXPECT_EQ(font().missing("anchor 中"), "U+4E2D");
  EXPECT_EQ(font().missing("a\nb"), "U+000A");
  EXPECT_EQ(font().missing("\xC3("), "a byte that is not UTF-8");
  EXPECT_EQ(font().missing("\xED\xA0\x80"), "a byte that is not UTF-8") << "a surrogate";
  EXPECT_EQ(font().missing("\xC0\x80"), "a byte that is not UTF-8") << "nought in two bytes";
}

TEST(Font, AMissingFontNamesItsPackageOnlyWhereItIsOurs) {
  const auto other = Font::open("/nowhere/font.ttf");
  ASSERT_FALSE(other.has_value());
  EXPECT_EQ(other.error().message, "font /nowhere/font.ttf cannot be read");
  const auto no_font = Font::open(FAIRLEAD_SOURCE_DIR "/CMakeLists.txt");
  ASSERT_FALSE(no_font.has_value());
}

TEST(Clip, ALineIsCutWhereItLeavesAndStartsAnewWhereItComesBack) {
  const auto pieces = clip({{-1, 1}, {3, 1}, {3, 5}, {1, 5}, {1, -1}}, {0, 0, 2, 4});
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0], (std::vector<Paper>{{0, 1}, {2, 1}}));
  EXPECT_EQ(pieces[1], (std::vector<Paper>{{1, 4}, {1, 0}}));
  EXPECT_TRUE(clip({{3, 3}, {4, 4}}, {0, 0, 2, 2}).empty());
}

TEST(Arc, ItsChordsStayWithinTheTolerance) {
  for (double radius : {0.3, 1.0, 8.0, 300.0}) {
    const auto path = arc({1, 2}, radius, 0, 2 * std::numbers::pi);
    double worst = 0;
    for (std::size_t i = 1; i < path.size(); ++i)
      worst = std::max(worst, radius - length(0.5 * (path[i] + path[i - 1]) - Paper{1, 2}));
    EXPECT_LE(worst, curve_tolerance_mm * (1 + 1e-9)) << radius;
  }
}

TEST(Wrap, NoLineIsWiderThanAllowedAndNoWordIsLost) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  const std::string text = "the line runs over sheave R1 and Donaudampfschifffahrtsgesellschaft once";
  for (double width : {8.0, 20.0, 45.0, 500.0}) {
    std::string together;
    for (const std::string& line : canvas.wrap(text, 2.5, width)) {
      EXPECT_LE(canvas.width(line, 2.5), width);
      for (char c : line)
        if (c != ' ') together += c;
    }
    std::string letters;
    for (char c : text)
      if (c != ' ') letters += c;
    EXPECT_EQ(together, letters) << width;
  }
}

TEST(Wrap, ANumberKeepsTheUnitBehindItUnlessThereIsNoRoomForBoth) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  const std::string text = "rider at travel 70.081 m";
  const double room = canvas.width("rider at travel 70.081", 2.5) + 0.1;
  EXPECT_EQ(canvas.wrap(text, 2.5, room), (std::vector<std::string>{"rider at travel", "70.081 m"}));
  EXPECT_EQ(canvas.wrap("70.081 m", 2.5, canvas.width("70.081", 2.5) + 0.1), (std::vector<std::string>{"70.081", "m"}));
}

TEST(Fitted, WhatIsCutSaysSo) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  EXPECT_EQ(canvas.fitted("short", 2.5, 50), "short");
  const std::string cut = canvas.fitted("much too long for its field", 2.5, 20);
  EXPECT_TRUE(cut.ends_with("…"));
  EXPECT_LE(canvas.width(cut, 2.5), 20);
}

TEST(Fill, WhatIsTooLongForOneLineIsWrittenSmallerThenOnSeveralAndOnlyThenCut) {
  const Box box{0, 0, 40, 5};
  const auto filled = [&](const std::string& text) {
    Drawing drawing;
    Canvas(drawing, font()).fill(box, text, {2.5, 1.8}, Layer::text);
    EXPECT_EQ(faults(drawing, font(), box), std::vector<std::string>{}) << text;
    return drawing;
  };
  const auto label = [](const Drawing& drawing, std::size_t i) { return std::get<Label>(drawing.entities.at(i)); };
  EXPECT_EQ(label(filled("short"), 0).cap_mm, 2.5);
  EXPECT_EQ(label(filled("site grid, bolt S1 at the tower foot"), 0).cap_mm, 1.8);
  const Drawing two = filled("site grid, bolt S1 at the foot of the spur tower");
  ASSERT_EQ(two.entities.size(), 2u);
  EXPECT_EQ(label(two, 0).text + ' ' + label(two, 1).text, "site grid, bolt S1 at the foot of the spur tower");
  EXPECT_GT(label(two, 0).at.y_mm, label(two, 1).at.y_mm);
  const Drawing cut =
      filled("site grid, bolt S1 at the foot of the spur tower, as the surveyors of the year before left it");
  ASSERT_EQ(cut.entities.size(), 2u);
  EXPECT_TRUE(label(cut, 1).text.ends_with("…"));
}

TEST(Overlap, LetteringIsJudgedByBaselineAdvanceAndCapHeightAtAnyAngle) {
  const Label level{{10, 10}, 5, 0, "HHHH", Layer::text};
  const double width = font().width_mm("HHHH", 5);
  const Label beside{{10 + width, 10}, 5, 0, "H", Layer::text}, above{{10, 15}, 5, 0, "H", Layer::text};
  EXPECT_FALSE(overlap(text_quad(level, font()), text_quad(beside, font())));
  EXPECT_FALSE(overlap(text_quad(level, font()), text_quad(above, font())));
  const Label into{{10 + width - 0.1, 10}, 5, 0, "H", Layer::text};
  EXPECT_TRUE(overlap(text_quad(level, font()), text_quad(into, font())));
  // Upright beside it: its bounding box would overlap at 45 degrees, it itself does not.
  const Label slanted{{10 + width + 4, 9}, 5, std::numbers::pi / 4, "HHHH", Layer::text};
  EXPECT_FALSE(overlap(text_quad(level, font()), text_quad(slanted, font())));
}

TEST(Overlap, FaultsNameTheTwoTextsTheLineAndTheFrame) {
  Drawing drawing;
  const Canvas canvas(drawing, font());
  canvas.text({10, 10}, "first", 5, Layer::text);
  canvas.text({12, 12}, "second", 5, Layer::text);
  canvas.text({95, 50}, "outside", 5, Layer::text);
  canvas.line({{5, 80}, {60, 80}}, {0.25, LineType::continuous, Layer::grid});
  canvas.text({20, 78}, "struck", 5, Layer::text);
  const auto found = faults(drawing, font(), {0, 0, 100, 100});
  ASSERT_EQ(found.size(), 3u);
  EXPECT_EQ(found[0], "\"first\" overlaps \"second\"");
  EXPECT_EQ(found[1], "\"outside\" leaves the frame");
  EXPECT_EQ(found[2], "a line of S-GRID at (5.0, 80.0) runs through \"struck\"");
}

}  // namespace
}  // namespace fairlead::drawing

// Texts in another language: looked up as wholes, measured and broken as they then stand.
#include "report/drawing/wording.hpp"

#include <gtest/gtest.h>

#include "report/drawing/blocks.hpp"

namespace fairlead::drawing {
namespace {

Wording german(std::set<std::string, std::less<>> own = {}) {
  return {"de",
          {{"sag", "Durchhang"},
           {"line", "Seil"},
           {"cold", "kalt"},
           {"slackest", "schlaffster"},
           {"limit", ""},
           {"line {1}", "Seil {1}"},
           {"Case {1}: {2}.", "Fall {1}: {2}."},
           {"columns {1} of {2}", "von {2} Spalten {1}"},
           {"{1} waived ({2})", "{1} ausgenommen ({2})"},
           {"limit back {1}", ""}},
          std::move(own)};
}

TEST(Wording, WholeTextsAreLookedUpAndNothingElse) {
  const Wording wording = german();
  EXPECT_EQ(wording.said("sag"), "Durchhang");
  EXPECT_EQ(wording.said("sag at mid-span"), "sag at mid-span");
  EXPECT_EQ(wording.said("the line"), "the line");
  EXPECT_EQ(wording.said(""), "");
}

TEST(Wording, WhatIsPutInKeepsItsPlaceAndIsLookedUpToo) {
  const Wording wording = german();
  EXPECT_EQ(wording.said("columns 2 of 3"), "von 3 Spalten 2");
  EXPECT_EQ(wording.said("Case A: cold, slackest, L1."), "Fall A: kalt, schlaffster, L1.");
  EXPECT_EQ(wording.said("line L1"), "Seil L1");
  EXPECT_EQ(wording.said("1 waived (hands-at-trolley L1)"), "1 ausgenommen (hands-at-trolley L1)");
}

TEST(Wording, AUnitBehindAHeadingStays) {
  const Wording wording = german();
  EXPECT_EQ(wording.said("sag, m"), "Durchhang, m");
  EXPECT_EQ(wording.said("sag, kN (lbf)"), "Durchhang, kN (lbf)");
  EXPECT_EQ(wording.said("sag, ft (tenths)"), "Durchhang, ft (tenths)");
  EXPECT_EQ(wording.said("sag, as seen"), "sag, as seen");
}

/// Half a sentence in another language would be worse than all of it in English.
TEST(Wording, SentencesThatBeginAsALabelStayWhole) {
  const Wording wording = german();
  for (const char* sentence : {"line L1: it leaves its groove", "line that leaves its groove", "cold, wet and slackest",
                               "Case A: one thing. Another."})
    EXPECT_EQ(wording.said(sentence), sentence);
}

TEST(Wording, ListsAreLookedUpItemByItemWhereEveryItemIsKnown) {
  EXPECT_EQ(german().said("cold, slackest"), "kalt, schlaffster");
}

TEST(Wording, WhatTheLayoutItselfSaysStays) {
  const Wording wording = german({"sag", "cold"});
  EXPECT_EQ(wording.said("sag"), "sag");
  EXPECT_EQ(wording.said("sag, m"), "sag, m");
  EXPECT_EQ(wording.said("line cold"), "Seil cold");
}

TEST(Wording, LabelsWithoutAPairStayEnglishAndAreNamedOnce) {
  const Wording wording = german();
  EXPECT_EQ(wording.without_pair(), std::vector<std::string>{});
  EXPECT_EQ(wording.said("limit back 5 deg"), "limit back 5 deg");
  EXPECT_EQ(wording.said("limit"), "limit");
  EXPECT_EQ(wording.said("limit, m"), "limit, m");
  EXPECT_EQ(wording.without_pair(), (std::vector<std::string>{"limit", "limit back {1}"}));
}

Font speaking() {
  Font font = Font::open().value();
  font.speak(std::make_shared<const Wording>(
      "de", std::vector<Pair>{{"sag", "Durchhang in Feldmitte"}, {"in", "im"}, {"end", "Ende"}},
      std::set<std::string, std::less<>>{}));
  return font;
}

TEST(Wording, TablesAreAsWideAsWhatStandsInThem) {
  const Font english = Font::open().value(), german = speaking();
  Drawing drawing;
  const Grid grid("", {{"a"}}, {{"sag"}});
  const Grid as_written("", {{"a"}}, {{"Durchhang in Feldmitte"}});
  EXPECT_EQ(grid.size(Canvas(drawing, german), 200).width_mm, as_written.size(Canvas(drawing, english), 200).width_mm);
  EXPECT_GT(grid.size(Canvas(drawing, german), 200).width_mm, grid.size(Canvas(drawing, english), 200).width_mm);
}

/// "end" alone on a line of a broken sentence is no label.
TEST(Wording, ALineOfABrokenTextIsNotLookedUpAgain) {
  const Font font = speaking();
  Drawing drawing;
  const Canvas canvas(drawing, font);
  Paragraphs("", {{"", "extraordinarily end"}}, {note_cap_mm})
      .draw(canvas, {0, 100}, canvas.word_width("extraordinarily", note_cap_mm) + 1);
  Grid("", {{"a", Align::left, true}}, {{"extraordinarily end"}}).draw(canvas, {0, 50}, 10);
  int ends = 0;
  for (const auto& entity : drawing.entities)
    if (const auto* label = std::get_if<Label>(&entity)) {
      EXPECT_EQ(label->text.find("Ende"), std::string::npos) << label->text;
      ends += label->text == "end" ? 1 : 0;
    }
  EXPECT_EQ(ends, 2);
}

TEST(Wording, BracesWithoutADigitAreText) {
  EXPECT_EQ(with_places("a {x} {12} {}").places, std::vector<int>{});
  EXPECT_EQ(with_places("{1} of {2}").between, (std::vector<std::string>{"", " of ", ""}));
}

}  // namespace
}  // namespace fairlead::drawing

#include "report/words/wrap.hpp"

#include <gtest/gtest.h>

namespace fairlead {
namespace {

TEST(Wrap, LaterLinesHangUnderTheFirstText) {
  EXPECT_EQ(words::wrapped("  - ", "one two three four", 12), "  - one two\n    three\n    four\n");
}

TEST(Wrap, ALineMayBeFullToItsLastColumn) {
  EXPECT_EQ(words::wrapped("", "12345 789", 9), "12345 789\n");
  EXPECT_EQ(words::wrapped("", "12345 7890", 9), "12345\n7890\n");
}

TEST(Wrap, ANumberStaysWithItsUnit) {
  EXPECT_EQ(words::wrapped("", "at travel 3.250 m, up", 15), "at travel\n3.250 m, up\n");
  EXPECT_EQ(words::wrapped("", "load 19.4 kN (4365 lbf);", 13), "load 19.4 kN\n(4365 lbf);\n");
  EXPECT_EQ(words::wrapped("", "at 12'-6 1/2\"", 8), "at\n12'-6 1/2\"\n") << "feet and inches are one number";
  EXPECT_EQ(words::wrapped("", "sheave 12 stands", 9), "sheave 12\nstands\n") << "a word that is no unit may part";
}

TEST(Wrap, AWordLongerThanTheLineIsNotCut) {
  EXPECT_EQ(words::wrapped("> ", "a 0123456789abcdef b", 8), "> a\n  0123456789abcdef\n  b\n");
}

TEST(Wrap, NothingGivesItsFirstWordsAlone) {
  EXPECT_EQ(words::wrapped("  ", "", 20), "\n");
  EXPECT_EQ(words::wrapped("x", "", 20), "x\n");
}

TEST(Wrap, ColumnsAreCharactersNotBytes) {
  EXPECT_EQ(words::width_of("Überführung"), 11);
  EXPECT_EQ(words::wrapped("", "öööö öööö", 9), "öööö öööö\n");
}

}  // namespace
}  // namespace fairlead

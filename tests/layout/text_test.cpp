// The bytes of a layout: encodings, ends of lines, sizes, and things that are no layout file at all.
#include "tests/layout/good_layout.hpp"
#include "tests/scratch.hpp"

namespace fairlead {
namespace {

std::string with_crlf(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\n' ? std::string("\r\n") : std::string(1, c);
  return out;
}

std::string refusal_of_file(const std::string& path) {
  const auto layout = read_layout(path);
  if (layout) return "read";
  EXPECT_EQ(layout.error().size(), 1u);
  return print(layout.error().front());
}

TEST(LayoutText, DosEndsOfLinesAndAByteOrderMarkChangeNothing) {
  const Layout plain = layout_of(good_text());
  for (const std::string& text : {with_crlf(good_text()), "\xEF\xBB\xBF" + good_text()}) {
    const Layout layout = layout_of(text);
    EXPECT_EQ(layout.anchors[1].position.place, plain.anchors[1].position.place);
    EXPECT_EQ(layout.anchors[1].position.value, plain.anchors[1].position.value);
    EXPECT_NE(layout.sha256, plain.sha256);
  }
}

TEST(LayoutText, AnErrorInADosFileWithAByteOrderMarkPrintsTheSame) {
  const std::string wrong = edited("wll = \"40 kN\"", "wll = \"3 ton\"");
  const std::string expected =
      "otter.toml:55:7: error: anchor \"A2\": \"ton\" may mean 1000 kg, 2000 lb or 2240 lb\n"
      "   55 |   wll = \"3 ton\"\n"
      "      |         ^^^^^^^ write \"3 t\", \"6000 lb\" or \"6720 lb\"\n";
  EXPECT_EQ(printed_errors(wrong), expected);
  EXPECT_EQ(printed_errors(with_crlf(wrong)), expected);
  EXPECT_EQ(printed_errors("\xEF\xBB\xBF" + wrong), expected);
}

TEST(LayoutText, ColumnsCountCharactersAndTabsKeepTheCaretInPlace) {
  const std::string text = edited("datum = \"bolt in the start tower's plinth\"", "\tdatum\t=\t7 # Fußpunkt");
  EXPECT_EQ(printed_errors(text),
            "otter.toml:27:10: error: site: \"datum\" is a text, not a number\n"
            "   27 |   \tdatum\t=\t7 # Fußpunkt\n"
            "      |   \t     \t \t^ for example datum = \"brass nail at the start tower\"\n");
  const std::string after = edited("critical_speed = \"30 m/s\" }", "critical_speed = \"30 m/s\", \"größe\" = 1 }");
  EXPECT_EQ(printed_errors(after),
            "otter.toml:161:53: error: brake unit eddy: unknown key \"größe\"\n"
            "  161 |   eddy = { peak = \"640 N\", critical_speed = \"30 m/s\", \"größe\" = 1 }\n"
            "      |                                                       ^^^^^^^ known: peak, critical_speed\n");
}

TEST(LayoutText, AValueOverSeveralLinesIsUnderlinedToTheEndOfItsFirst) {
  const std::string text = edited("position = [0, 0, 22]", "position = [0, # x\n  22]");
  EXPECT_EQ(printed_errors(text),
            "otter.toml:49:12: error: anchor \"A1\": \"position\" has three numbers, not 2\n"
            "   49 |   position = [0, # x\n"
            "      |              ^^^^^^^ for example position = [0.0, 0.0, 22.0]\n");
}

TEST(LayoutText, ALongLineIsCutAroundItsError) {
  const std::string pad(150, ' '), tail(200, '#');
  const std::string text = edited("wll = \"40 kN\"", pad + "wll = inf " + tail);
  const std::string printed = printed_errors(text);
  EXPECT_EQ(printed,
            "otter.toml:55:157: error: anchor \"A2\": the number is not finite\n"
            "   55 |   ..." +
                std::string(54, ' ') + "wll = inf " + std::string(56, '#') +
                "...\n"
                "      |   " +
                std::string(63, ' ') + "^^^ write a load rating in N, daN, kN, MN, lbf, kip, kgf, kg, t, tonne, lb\n");
}

TEST(LayoutText, QuotesAndCommentsMayHoldAnyLanguage) {
  EXPECT_EQ(printed_errors(edited("owner = ", "# Мост, 橋, ﷽\nowner = ")), "");
  for (const char* owner : {"\"Мост\"", "'橋'", "\"\"\"Brücke\"\"\"", "'''pont – été'''", "\"a \\\" ü\"",
                            "\"\"\"a\"\"ü\"\"\"", "\"\"\"ü\"\"\"\"\"", "'\\'", "\"\\\\ü\""})
    EXPECT_EQ(printed_errors(edited("\"Invented Valley Rides\"", owner)), "") << owner;
}

// The scan before the parser must take for quoted all that the parser does.
TEST(LayoutText, QuotesAreFoundWithoutBlanksAroundThemInListsAndInTables) {
  EXPECT_EQ(printed_errors(edited("axes = [\"east\", \"north\", \"up\"]", "axes=[\"öst\",'nörd',#ü\n\"höch\"]")), "");
  EXPECT_EQ(printed_errors(edited("fleet_angle = { at = \"4 deg\", basis = \"invented\" }",
                                  "fleet_angle={at=\"4°\",basis='für uns'}")),
            "");
  EXPECT_EQ(printed_errors(edited("owner = \"Invented Valley Rides\"", "\"owner\"=\"Brücke\"#ü")), "");
  EXPECT_EQ(printed_errors(edited("creator = ", "project.'für' = 1\ncreator = ")).find("stands outside quotes"),
            std::string::npos);
}

TEST(LayoutText, NestingWithoutEndIsRefusedBeforeItIsParsed) {
  const std::string shown = "    2 |   " + std::string(120, '[') + "...\n      |                   ^\n";
  EXPECT_EQ(printed_errors("a =\n" + std::string(60000, '[')),
            "otter.toml:2:17: error: this is nested more than 16 deep\n" + shown);
  std::string lines = "a = ";
  for (int i = 0; i < 100000; ++i) lines += "[\n";
  EXPECT_EQ(printed_errors(lines),
            "otter.toml:17:1: error: this is nested more than 16 deep\n   17 |   [\n      |   ^\n");
  std::string braces = "a = ";
  for (int i = 0; i < 2000; ++i) braces += "{ a = ";
  EXPECT_NE(printed_errors(braces).find("this is nested more than 16 deep"), std::string::npos);
  EXPECT_NE(printed_errors("[a" + std::string(20000, '.') + "]").find("this is nested"), std::string::npos);
}

TEST(LayoutText, AFileOverFourMebibytesIsRefusedWithItsSize) {
  const Scratch folder;
  const std::string large = folder.write("large.toml", std::string(4 * 1024 * 1024 + 1, '#'));
  EXPECT_EQ(refusal_of_file(large), large + ": error: the file has 4194305 bytes, and a layout at most 4194304\n");
  EXPECT_EQ(printed_errors(std::string(4 * 1024 * 1024 + 1, '#')),
            "otter.toml: error: the file has 4194305 bytes, and a layout at most 4194304\n");
}

// The file has a hole for its hundred megabytes: whoever read it all would need as much memory.
TEST(LayoutText, AHundredMegabytesAreRefusedWithoutReadingThemAll) {
  const Scratch folder;
  const std::string huge = folder.write("huge.toml", "");
  std::filesystem::resize_file(huge, 100'000'000);
  EXPECT_EQ(refusal_of_file(huge), huge + ": error: the file has 100000000 bytes, and a layout at most 4194304\n");
}

// A pipe or device has no size to tell.
TEST(LayoutText, WhatNeverEndsIsReadNoFartherThanALayoutGoes) {
  EXPECT_EQ(refusal_of_file("/dev/zero"), "/dev/zero: error: there are more than 4194304 bytes in it\n");
}

TEST(LayoutText, FourMebibytesThemselvesAreRead) {
  std::string text = good_text();
  while (text.size() < 4 * 1024 * 1024 - 100) text += "# " + std::string(97, '.') + "\n";
  text += std::string(4 * 1024 * 1024 - text.size(), '\n');
  EXPECT_EQ(printed_errors(text), "");
}

TEST(LayoutText, WhatIsNoFileIsRefusedInWords) {
  const Scratch folder;
  const std::string directory = (top / "tests").string(), nothing = folder / "no_such.toml";
  EXPECT_EQ(refusal_of_file(directory), directory + ": error: this is a directory; name the layout file in it\n");
  EXPECT_EQ(refusal_of_file(nothing), nothing + ": error: there is no such file\n");
  const std::string empty = folder.write("empty.toml", "");
  EXPECT_EQ(refusal_of_file(empty),
            empty + ": error: the file is empty; a starting layout is made by \"fairlead new\"\n");
  const std::string locked = folder.write("locked.toml", good_text());
  std::filesystem::permissions(locked, std::filesystem::perms::none);
  const bool root = std::ifstream(locked).good();  // who opens it all the same
  EXPECT_EQ(refusal_of_file(locked), root ? "read" : locked + ": error: the file can not be opened\n");
}

TEST(LayoutText, ManyMoreErrorsThanAnyoneReadsEndInACount) {
  std::string text;
  for (int i = 0; i < 1001; ++i) text += "[[anchor]]\n";
  const auto layout = read_layout_text(text, "otter.toml");
  ASSERT_FALSE(layout.has_value());
  EXPECT_EQ(layout.error().size(), 9u);  // eight sections missing, and the one message
  EXPECT_EQ(layout.error().back().message, "anchor: there are more than 1000 of \"anchor\"");
  text.clear();
  for (int i = 0; i < 900; ++i) text += "[[anchor]]\n";
  const auto missing = read_layout_text(text, "otter.toml");
  ASSERT_FALSE(missing.has_value());
  EXPECT_EQ(missing.error().size(), 201u);
  EXPECT_EQ(print(missing.error().back()), "otter.toml: error: and 2508 more errors\n");
}

TEST(LayoutText, ALineNobodyCouldHaveTypedIsRefused) {
  EXPECT_EQ(printed_errors("a = \"" + std::string(70000, 'x') + "\"\n").substr(0, 67),
            "otter.toml:1:1: error: the line is longer than 65536 bytes\n    1 | ");
}

}  // namespace
}  // namespace fairlead

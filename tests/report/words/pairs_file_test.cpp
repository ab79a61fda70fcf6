// Files of pairs: what is read, and every error at its place.
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "report/words/labels.hpp"

namespace fairlead::words {
namespace {

std::string none_missing(std::string_view) { return {}; }

tl::expected<Pairs, PointsErrors> read(const std::string& text) { return read_pairs(text, none_missing); }

/// "3:1-4 message; instead" of every error.
std::string errors_of(const std::string& text,
                      const std::function<std::string(std::string_view)>& missing = none_missing) {
  const auto pairs = read_pairs(text, missing);
  if (pairs) return "none";
  std::string all;
  for (const PointsError& e : pairs.error().first)
    all += std::to_string(e.line) + ":" + std::to_string(e.column) + "+" + std::to_string(e.length) + " " + e.message +
           "; " + e.instead + "\n";
  return all;
}

constexpr const char* head = "language = \"de\"\n[labels]\n";

TEST(PairsFile, PairsCommentsAndEscapesAreRead) {
  const auto pairs =
      read("# of the project\nlanguage = \"de\" # German\r\n\n[labels]\n\"Scale\" = \"Maß\\\"stab\\\\\" # x\n");
  ASSERT_TRUE(pairs) << errors_of("");
  EXPECT_EQ(pairs->language, "de");
  EXPECT_EQ(pairs->pairs, (std::vector<std::pair<std::string, std::string>>{{"Scale", "Maß\"stab\\"}}));
}

TEST(PairsFile, WhatIsLeftEmptyHasNoPair) {
  EXPECT_EQ(read(std::string(head) + "\"Scale\" = \"\"\n")->pairs.size(), 0u);
}

TEST(PairsFile, AllErrorsAreToldAtOnceWithWhatToWriteInstead) {
  EXPECT_EQ(errors_of("language = \"German\"\n"
                      "[labels]\n"
                      "\"Scale\" = \"Maßstab\"\n"
                      "\"Scale\" = \"Massstab\"\n"
                      "\"Scala\" = \"x\"\n"
                      "\"{1} pass\" = \"bestanden\"\n"
                      "\"{1} fail\" = \"{1} {1} {2}\"\n"
                      "Date = \"x\"\n"
                      "\"Date\" \"x\"\n"
                      "\"Date\" = 'x'\n"
                      "\"Date\" = \"x\n"
                      "\"By\" = \"x\" y\n"
                      "\"Sheet\" = \"\\n\"\n"
                      "language = \"de\"\n"),
            "1:12+8 this is no code of a language; write two or three small letters of ISO 639, as \"de\"\n"
            "4:1+7 this text has its pair in line 3 already; leave one of the two out\n"
            "5:1+7 no fixed text of the sheets reads so; did you mean \"Scale\"?\n"
            "6:14+11 {1} is lost, and what is put in there with it; write {1} where it belongs\n"
            "7:14+13 {1} stands here more than once; leave it once\n"
            "7:14+13 {2} stands for nothing: the English text has none; leave it out\n"
            "8:1+10 this is neither a pair nor a comment; a line is \"English text\" = \"its translation\"; a comment "
            "begins with #\n"
            "9:8+3 = is missing here; a line is \"English text\" = \"its translation\"\n"
            "10:10+3 a text in double quotes is missing here; a line is \"English text\" = \"its translation\"\n"
            "11:10+2 the text has no end; close it with \"\n"
            "12:12+1 nothing more may stand on this line; begin a comment with #\n"
            "13:12+2 no sign is written so here; write \\\" for a quote and \\\\ for a backslash\n"
            "14:12+4 the language is named twice; leave one of the lines out\n");
}

TEST(PairsFile, ALetterTheFontLacksIsNamed) {
  const auto missing = [](std::string_view text) {
    return text.find("ß") == text.npos ? std::string() : std::string("U+00DF");
  };
  EXPECT_EQ(errors_of(std::string(head) + "\"Scale\" = \"Maßstab\"\n", missing),
            "3:11+9 the font has no U+00DF; write it otherwise, or take another --font\n");
}

TEST(PairsFile, WithoutALanguageOrAsNoTextItIsRefused) {
  EXPECT_EQ(errors_of("\"Scale\" = \"x\"\n"),
            "0:0+1 the file names no language; write language = \"de\", with its own code of ISO 639\n");
  EXPECT_EQ(errors_of("language = \"de\"\n\xFF"), "0:0+1 the file is no UTF-8 text; save it as UTF-8\n");
}

std::vector<std::string> all_labels() {
  std::vector<std::string> all;
  for (const LabelGroup& group : label_groups()) all.insert(all.end(), group.labels.begin(), group.labels.end());
  return all;
}

TEST(PairsFile, NoLabelIsListedTwice) {
  std::set<std::string> seen;
  for (const std::string& label : all_labels()) EXPECT_TRUE(seen.insert(label).second) << label;
}

/// The template is refused for its language alone, and read once that is filled in; every label is in it, in order.
TEST(PairsFile, TheTemplateHoldsEveryLabel) {
  std::string text = pairs_template();
  EXPECT_EQ(errors_of(text),
            "6:12+2 this is no code of a language; write two or three small letters of ISO 639, as \"de\"\n");
  text.replace(text.find("language = \"\""), 13, "language = \"xx\"");
  for (std::size_t at; (at = text.find(" = \"\"\n")) != text.npos;) {
    const std::size_t line = text.rfind('\n', at) + 1;
    text.replace(at, 6, " = " + text.substr(line, at - line) + "\n");
  }
  const auto pairs = read(text);
  ASSERT_TRUE(pairs) << errors_of(text);
  std::vector<std::string> read_labels;
  for (const auto& [english, other] : pairs->pairs) {
    EXPECT_EQ(english, other);
    read_labels.push_back(english);
  }
  EXPECT_EQ(read_labels, all_labels());
}

/// A label that is new, or reads otherwise now, makes this fail: the file of the project is whole.
TEST(PairsFile, TheShippedGermanFileHasEveryLabel) {
  std::ifstream in(FAIRLEAD_SOURCE_DIR "/layouts/labels_de.toml");
  std::ostringstream text;
  text << in.rdbuf();
  const auto pairs = read(text.str());
  ASSERT_TRUE(pairs) << errors_of(text.str());
  EXPECT_EQ(pairs->language, "de");
  std::set<std::string> has;
  for (const auto& [english, other] : pairs->pairs) has.insert(english);
  for (const std::string& label : all_labels()) EXPECT_TRUE(has.contains(label)) << label;
}

}  // namespace
}  // namespace fairlead::words

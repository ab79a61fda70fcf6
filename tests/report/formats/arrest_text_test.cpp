// What `fairlead arrest` prints, and how a table too wide for a terminal is broken.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <sstream>

#include "geometry/checks/list.hpp"
#include "report/formats/text.hpp"
#include "report/words/names.hpp"

namespace fairlead {
namespace {

const Style si{Units::si};

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

TEST(TableInParts, IsTheSameTableWhereItFits) {
  const Table table{"Loads", {"anchor", "load"}, {{std::string("A1"), Quantity{12, Dimension::length}}}, {"A note."}};
  EXPECT_EQ(text::write_in_parts(table, si), text::write(table, si));
  const Table none{"Loads", {"anchor"}, {}, {"Undetermined: not solved"}};
  EXPECT_EQ(text::write_in_parts(none, si), text::write(none, si));
}

TEST(TableInParts, EveryPartFitsIsLedByTheFirstColumnAndNoColumnIsLostOrTwice) {
  Table table{"Corners", {"corner"}, {{std::string("1")}, {std::string("2")}}, {"A note."}};
  constexpr int columns = 30;
  for (int i = 0; i < columns; ++i) {
    table.headings.push_back(fmt::format("c{}", i));
    table.rows[0].emplace_back(fmt::format("first{}", i));
    table.rows[1].emplace_back(fmt::format("second{}", i));
  }
  const std::vector<std::string> lines = lines_of(text::write_in_parts(table, si));
  std::string headings, first_rows;
  int parts = 0;
  for (const std::string& line : lines) {
    EXPECT_LE(line.size(), 100u);
    if (line.starts_with("corner ")) headings += line.substr(6), ++parts;
    if (line.starts_with("1 ")) first_rows += line.substr(1);
  }
  EXPECT_GT(parts, 2);
  std::istringstream heading(headings), row(first_rows);
  for (int i = 0; i < columns; ++i) {
    std::string word;
    ASSERT_TRUE(heading >> word);
    EXPECT_EQ(word, fmt::format("c{}", i));
    ASSERT_TRUE(row >> word);
    EXPECT_EQ(word, fmt::format("first{}", i));
  }
  EXPECT_EQ(lines.front(), "Corners");
  EXPECT_EQ(lines.back(), "  A note.");
}

Dossier with_findings(std::vector<const Check*> checks) {
  Dossier dossier;
  dossier.judged.rig.layout.files = {"site.toml"};
  for (const Check* check : checks) {
    Finding finding{.check = check, .verdict = Verdict::fail, .why = "by hand"};
    dossier.judged.findings.push_back(finding);
  }
  return dossier;
}

TEST(ArrestText, TellsTheArrestsOwnFindingsAndCountsTheOthersThatDoNotPass) {
  const std::string text = text::write_arrest(with_findings({&rider_stops, &fleet_angle, &lead_angle}), si);
  EXPECT_TRUE(text.starts_with("NOT CLEARED: 3 fail\n")) << text;
  EXPECT_NE(text.find("\n  rider-stops  "), std::string::npos) << text;
  EXPECT_EQ(text.find("\n  fleet-angle  "), std::string::npos) << text;
  EXPECT_NE(text.find("\n2 findings of other checks not passed: fairlead check tells them.\n"), std::string::npos);
  EXPECT_NE(text::write_arrest(with_findings({&swing, &lead_angle}), si).find("\n1 finding of other checks"),
            std::string::npos);
  EXPECT_EQ(text::write_arrest(with_findings({&swing}), si).find("other checks"), std::string::npos);
}

TEST(ArrestText, TheChecksItTellsAreAllOfTheListAndNoneTwice) {
  const auto checks = words::arrest_checks();
  for (const Check* check : checks) {
    EXPECT_EQ(find_check(check->name), check) << check->name;
    EXPECT_EQ(std::count(checks.begin(), checks.end(), check), 1) << check->name;
  }
  EXPECT_EQ(checks.size(), 13u);
}

}  // namespace
}  // namespace fairlead

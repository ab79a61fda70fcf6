#include "report/formats/text.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "geometry/checks/list.hpp"
#include "report/words/cautions.hpp"
#include "report/words/names.hpp"
#include "report/words/version.hpp"
#include "report/words/wrap.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

const Style si{Units::si};
constexpr double degree = 3.14159265358979323846 / 180;

/// A rig of three anchors and one sheave of which nothing is solved, with one finding of every outcome.
Dossier by_hand() {
  Layout layout;
  layout.files = {"small.toml"};
  layout.sha256 = std::string(64, 'a');
  layout.project.owner.value = "Owner";
  layout.project.title.value = "Title";
  layout.project.number.value = "N-1";
  layout.project.revision.value = "A";
  layout.site.name.value = "Site";
  Anchor anchor;
  anchor.id.value = "A1";
  layout.anchors = {anchor};
  Sheave sheave;
  sheave.id.value = "R1";
  layout.sheaves = {sheave};
  Waiver used, idle;
  used.check.value = "backup-brake";
  used.who = "C. Approver";
  used.why = "net in place";
  used.until.value = {2026, 12, 31};
  idle = used;
  idle.check.value = "fleet-angle";
  idle.subject = "R9";
  layout.waivers = {used, idle};

  Finding pass{.check = &certificate_date, .subject = {Item::Kind::brake_unit, 0}, .verdict = Verdict::pass};
  pass.place = {0, 40, 1};
  pass.facts = {{"due", std::string("2027-01-01")}, {"date", std::string("2026-01-01")}};
  Finding fail{.check = &fleet_angle, .subject = {Item::Kind::sheave, 0}, .verdict = Verdict::fail};
  fail.value = fail.bound = 4.5 * degree;
  fail.measured = true;
  fail.limit = Limit{Real{3 * degree, {}}, "J. Doe"};
  fail.travel_m = 0.25;
  fail.at = Point3{1, 2, 3};
  fail.place = {0, 12, 1};
  fail.facts = {{"leg", std::string("trolley")},
                {"move", Quantity{0.021, Dimension::length}},
                {"side", std::string("to the left")}};
  Finding open{.check = &lead_angle, .subject = {Item::Kind::brake_unit, 0}, .verdict = Verdict::undetermined};
  open.why = "the line leaves the sheave before the trolley has gone a metre, and beyond that there is no leg";
  open.place = {0, 20, 1};
  Finding again = open;
  again.check = &coplanarity;
  Finding unjudged{.check = &across_offset, .subject = {Item::Kind::brake_trolley, 0}, .verdict = Verdict::not_judged};
  unjudged.value = unjudged.bound = 0.0123;
  unjudged.measured = true;
  unjudged.why = "no limit given";
  unjudged.place = {0, 30, 1};
  Finding waived{.check = &backup_brake, .subject = {Item::Kind::backup_brake, 0}, .verdict = Verdict::fail};
  waived.facts = {{"backup", std::string("none given")}};
  waived.place = {0, 35, 1};
  waived.waiver = 0;

  Dossier dossier;
  dossier.judged.rig.layout = layout;
  dossier.judged.findings = {pass, fail, open, again, unjudged, waived};
  return dossier;
}

std::string up_to(const std::string& text, const std::string& mark) { return text.substr(0, text.find(mark)); }

std::string names_of(const std::vector<const Check*>& checks) {
  std::string names;
  for (const Check* check : checks) names += (names.empty() ? "" : ", ") + std::string(check->name);
  return names;
}

TEST(CheckText, TellsEveryOutcomeInFullWorstFirst) {
  const Dossier dossier = by_hand();
  EXPECT_EQ(up_to(text::write(dossier, si), "\nMain line, loaded"),
            "NOT CLEARED: 1 fail, 2 undetermined, 1 not judged\n"
            "\n"
            "Owner: Title, N-1 revision A, Site\n"
            "small.toml, sha256 " +
                std::string(64, 'a') +
                "\n"
                "fairlead " +
                std::string(words::program_version()) + R"(

FAIL
  fleet-angle       sheave R1: the line on the trolley side runs 4.50 deg off the groove's plane at
                    travel 0.250 m, 1.50 deg over the limit of 3.00 deg (J. Doe); at east 1.000 m,
                    north 2.000 m, up 3.000 m [small.toml:12]
                    What would help: move sheave R1 at least 21.0 mm to the left (seen toward the
                    landing), or turn its axle

UNDETERMINED
  lead-angle        brake unit: undetermined: the line leaves the sheave before the trolley has gone
                    a metre, and beyond that there is no leg [small.toml:20]
  coplanarity       brake unit: undetermined: for the reason given at lead-angle [small.toml:20]

NOT JUDGED
  across-offset     brake trolley: a contact or the trolley end stands 12.3 mm across from the main
                    line; not judged: no limit given [small.toml:30]

WAIVED
  backup-brake      backup brake: none given [small.toml:35]
                    Waived by C. Approver until 2026-12-31: net in place
                    What would help: give a [backup_brake] that engages beyond the planned travel

PASS
  certificate-date  brake unit: certificate due 2027-01-01, judged on 2026-01-01 [small.toml:40]

)" + words::wrapped("Nothing to judge: ", names_of(words::without_subject(dossier.judged.findings))) +
                R"(
Waivers
  backup-brake (every subject), by C. Approver until 2026-12-31: net in place; waives 1
  fleet-angle R9, by C. Approver until 2026-12-31: net in place; waives nothing: no such finding,
  out of date, or no date to judge by

Main line, bare
  Undetermined: not solved
)");
}

TEST(CheckText, EndsWithWhatWasNotLookedAtAndTheCautions) {
  const std::string text = text::write(by_hand(), si);
  std::string end = "\nNot looked at by this version\n";
  for (const std::string_view sentence : words::not_checked()) end += words::wrapped("  - ", sentence);
  end += "\nCautions\n";
  for (const std::string_view sentence : words::cautions()) end += words::wrapped("  - ", sentence);
  EXPECT_TRUE(text.ends_with(end));
}

TEST(CheckText, NoLineIsWiderThanThePageInAnyUnits) {
  const auto spoiled = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_spoiled.toml");
  ASSERT_TRUE(spoiled.has_value());
  const std::vector<Override> ranges = {{"main_line.tension", "['17 kN', '18 kN']"},
                                        {"main_line.ea", "['10 MN', '12 MN']"}};
  for (Layout layout : {demo_layout(), *spoiled, demo_layout(ranges), demo_layout({{"line.L1.route", "[]"}})}) {
    layout.files[0] = "site.toml";  // a path is not broken, however long
    const Dossier dossier{judge(layout)};
    for (const Units units : {Units::si, Units::us, Units::both}) {
      std::istringstream lines(text::write(dossier, Style{units}));
      for (std::string line; std::getline(lines, line);) {
        EXPECT_LE(words::width_of(line), words::page_columns) << line;
        EXPECT_FALSE(line.ends_with(' ')) << line;
      }
    }
  }
}

TEST(CheckText, TellsTheNearestOfAReductionsPairsAndWhatWasLeftOutByReason) {
  auto layout = read_layout(FAIRLEAD_SOURCE_DIR "/layouts/marten_ridge.toml");
  ASSERT_TRUE(layout.has_value());
  layout->files[0] = "site.toml";  // a path is not broken, however long
  const Dossier dossier{judge(*layout)};
  for (const Units units : {Units::si, Units::us, Units::both}) {
    const std::string text = text::write(dossier, Style{units});
    EXPECT_NE(text.find("\n  The 12 nearest of "), std::string::npos);
    EXPECT_NE(text.find("\n  - both lead to one block: leg "), std::string::npos);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(words::width_of(line), words::page_columns) << line;
  }
}

TEST(CheckText, IsTheSameBytesEveryTime) {
  EXPECT_EQ(text::write(Dossier{judge(demo_layout())}, Style{}), text::write(Dossier{judge(demo_layout())}, Style{}));
}

TEST(TableText, SetsNumbersFlushRightAndHeadingsOnTheRule) {
  Table table{"Loads", {"anchor", "greatest size", "case"}, {}, {"Unfactored."}};
  table.rows.push_back({std::string("A1"), Quantity{18234, Dimension::force}, std::string("at rest")});
  table.rows.push_back({std::string("B12"), Quantity{950, Dimension::force}, Cell{}});
  EXPECT_EQ(text::write(table, si),
            "Loads\n"
            "        greatest\n"
            "anchor  size, kN  case\n"
            "-------------------------\n"
            "A1         18.23  at rest\n"
            "B12         0.95\n"
            "  Unfactored.\n");
}

TEST(TableText, WordsGiveWayWhereThePageIsTooNarrow) {
  Table table{"T", {"name", "finding"}, {}, {}};
  std::string long_words;
  for (int i = 0; i < 30; ++i) long_words += "word" + std::to_string(10 + i) + " ";
  table.rows.push_back({std::string("a name of several words"), long_words});
  std::istringstream lines(text::write(table, si));
  std::string all;
  for (std::string line; std::getline(lines, line); all += line + " ") EXPECT_LE(words::width_of(line), 100) << line;
  EXPECT_NE(all.find("a name of several words"), std::string::npos) << "the narrower column is left alone: " << all;
  EXPECT_NE(all.find("word39"), std::string::npos);
}

TEST(TableText, WithoutRowsOnlyTitleAndNotesRemain) {
  EXPECT_EQ(text::write(Table{"T", {"a"}, {}, {"Undetermined: why"}}, si), "T\n  Undetermined: why\n");
}

}  // namespace
}  // namespace fairlead

#include "report/words/names.hpp"

#include <gtest/gtest.h>

#include "geometry/checks/list.hpp"
#include "geometry/layout/read.hpp"
#include "report/words/explain.hpp"
#include "tests/demo_layout.hpp"

namespace fairlead {
namespace {

Judged with(std::vector<Finding> findings) { return {Rig{}, std::move(findings)}; }
Finding found(Verdict verdict) { return {.check = &backup_brake, .verdict = verdict}; }

TEST(Names, SayKindAndIdOrTheKindAloneWhereThereIsOne) {
  const Layout layout = demo_layout();
  EXPECT_EQ(words::name_of(layout, {Item::Kind::sheave, 0}), "sheave R1");
  EXPECT_EQ(words::id_of(layout, {Item::Kind::anchor, 2}), "A3");
  EXPECT_EQ(words::name_of(layout, {Item::Kind::brake_unit, 0}), "brake unit");
  EXPECT_EQ(words::id_of(layout, {Item::Kind::main_line, 0}), "main line");
}

TEST(Names, APlaceIsAFileAndALine) {
  Layout layout;
  layout.files = {"rig.toml", "command line"};
  EXPECT_EQ(words::place_of(layout, {0, 12, 3}), "rig.toml:12");
  EXPECT_EQ(words::place_of(layout, {1, 0, 0}), "command line");
  EXPECT_EQ(words::place_of(layout, {0, 0, 0}), "rig.toml") << "what stands nowhere belongs to the whole file";
}

TEST(Headline, LeavesOutWhatIsNought) {
  EXPECT_EQ(words::headline(with({found(Verdict::pass), found(Verdict::fail), found(Verdict::fail),
                                  found(Verdict::undetermined), found(Verdict::not_judged)})),
            "NOT CLEARED: 2 fail, 1 undetermined, 1 not judged");
  EXPECT_EQ(words::headline(with({found(Verdict::undetermined)})), "NOT CLEARED: 1 undetermined");
  EXPECT_EQ(words::headline(with({found(Verdict::pass)})), "CLEARED by these checks: 1 pass");
}

TEST(Headline, NothingJudgedIsNothingCleared) {
  EXPECT_EQ(words::headline(with({})), "NOT CLEARED: nothing was judged");
}

TEST(Headline, AWaivedFindingNeedsNoPassBesideItButItsName) {
  Finding waived = found(Verdict::fail);
  waived.subject = {Item::Kind::backup_brake, 0};
  waived.waiver = 0;
  EXPECT_EQ(words::headline(with({waived})), "CLEARED by these checks: 1 waived (backup-brake backup brake)");
}

TEST(Outcome, AWaiverTurnsNoPassIntoAWaivedFinding) {
  Finding passed = found(Verdict::pass);
  passed.waiver = 0;
  EXPECT_EQ(words::outcome_of(passed), words::Outcome::pass);
  for (const Verdict verdict : {Verdict::fail, Verdict::undetermined, Verdict::not_judged}) {
    Finding waived = found(verdict);
    waived.waiver = 0;
    EXPECT_EQ(words::outcome_of(waived), words::Outcome::waived);
  }
}

TEST(WithoutSubject, NamesTheChecksThatFoundNothing) {
  std::vector<Finding> findings;
  for (const Check* check : all_checks())
    if (check != &fleet_angle) findings.push_back({.check = check});
  EXPECT_EQ(words::without_subject(findings), std::vector<const Check*>{&fleet_angle});
}

TEST(Explain, ShowsAWholeCheck) {
  const Check check{.name = "backup-brake",
                    .title = "A title",
                    .sentence = "it engages {value} too early",
                    .formula = "engages - end >= 0",
                    .source = "own definition",
                    .remedy = "move {subject} downstream",
                    .dimension = Dimension::length,
                    .run = nullptr};
  EXPECT_EQ(words::explain(check),
            "A title\n"
            "\n"
            "check         backup-brake\n"
            "says          it engages [value] too early\n"
            "formula       engages - end >= 0\n"
            "source        own definition\n"
            "limit         none: it must stand beyond the planned travel\n"
            "what helps    move [subject] downstream\n");
}

TEST(Explain, EveryKeyItNamesIsAKeyOfTheLayout) {
  for (const Check* check : all_checks()) {
    std::string keys(words::limit_keys_of(*check));
    for (std::size_t at = 0; at < keys.size();) {
      const std::size_t end = std::min(keys.find_first_of(" ,;", at), keys.size());
      const std::string word = keys.substr(at, end - at);
      EXPECT_TRUE(word.find('.') == std::string::npos || key_help(word)) << check->name << ": " << word;
      at = end + 1;
    }
  }
}

}  // namespace
}  // namespace fairlead

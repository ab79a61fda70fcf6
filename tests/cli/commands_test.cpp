#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* good = "layouts/heron_gully.toml ";

TEST(Draw, WritesTheSameBytesTwiceAndReturnsTheVerdict) {
  const Scratch scratch;
  const Ran first = run(std::string("draw ") + good + "-o " + scratch / "a.pdf"),
            second = run(std::string("draw ") + good + "-o " + scratch / "b.pdf");
  EXPECT_EQ(first.status, 0) << first.err;
  EXPECT_EQ(second.status, 0);
  const std::string pdf = read_file(scratch / "a.pdf");
  EXPECT_EQ(pdf.substr(0, 5), "%PDF-");
  EXPECT_TRUE(pdf == read_file(scratch / "b.pdf")) << "the two drawings differ";
  EXPECT_EQ(run("draw layouts/heron_gully_spoiled.toml -o " + scratch / "c.pdf").status, 1);
  EXPECT_TRUE(exists(scratch / "c.pdf")) << "a rig that is not cleared is drawn as well";
}

TEST(Draw, LeavesNothingWhereItCannotWrite) {
  const Scratch scratch;
  const Ran ran = run(std::string("draw ") + good + "-o " + scratch / "no/such/folder/a.pdf");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("no/such/folder/a.pdf"), std::string::npos) << ran.err;
  EXPECT_EQ(scratch.files(), 0);
}

TEST(Draw, ABadLayoutLeavesAnOldDrawingAlone) {
  const Scratch scratch;
  write_file(scratch / "old.pdf", "yesterday's");
  EXPECT_EQ(run(std::string("draw ") + good + "--set main_line.tension=oops -o " + scratch / "old.pdf").status, 2);
  EXPECT_EQ(read_file(scratch / "old.pdf"), "yesterday's");
  EXPECT_EQ(scratch.files(), 1);
}

TEST(Draw, AFontThatIsNotThereIsNamed) {
  const Scratch scratch;
  const Ran ran = run(std::string("draw ") + good + "--font /no/such/font.ttf -o " + scratch / "a.pdf");
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("/no/such/font.ttf"), std::string::npos) << ran.err;
  EXPECT_EQ(scratch.files(), 0);
}

TEST(New, WritesALayoutThatCanBeChecked) {
  const Scratch scratch;
  EXPECT_EQ(run("new -o " + scratch / "site.toml").status, 0);
  EXPECT_EQ(read_file(scratch / "site.toml"), run("new").out);
  const Ran checked = run("check " + scratch / "site.toml");
  EXPECT_LE(checked.status, 1) << checked.err;
  EXPECT_EQ(checked.err, "");
}

TEST(New, NeverWritesOverALayout) {
  const Scratch scratch;
  write_file(scratch / "site.toml", "mine");
  const Ran ran = run("new -o " + scratch / "site.toml");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.err, "error: " + scratch / "site.toml" + ": File exists\n");
  EXPECT_EQ(read_file(scratch / "site.toml"), "mine");
}

TEST(Explain, KnowsEveryCheckAndEveryKey) {
  const Ran list = run("explain");
  EXPECT_EQ(list.status, 0);
  for (const char* name : {"pay-out", "fleet-angle", "lead-angle", "coplanarity", "across-offset", "anchor-utilisation",
                           "extension-reserve", "certificate-date", "backup-brake"}) {
    EXPECT_NE(list.out.find(name), std::string::npos) << name;
    EXPECT_EQ(run(std::string("explain ") + name).status, 0) << name;
  }
  EXPECT_NE(run("explain sheave.axle").out.find("axle"), std::string::npos);
  // CFR56-19024, CFR1926-1413: offered, never assumed.
  const Ran wear = run("explain wear");
  EXPECT_EQ(wear.status, 0) << wear.err;
  EXPECT_EQ(run("explain least_mm").out, wear.out);
  for (const char* words : {"30 CFR 56.19024", "29 CFR 1926.1413", "No limit is assumed"})
    EXPECT_NE(wear.out.find(words), std::string::npos) << words << wear.out;
  expect_narrow(wear.out);
  const Ran unknown = run("explain fleet-angel");
  EXPECT_EQ(unknown.status, 2);
  EXPECT_EQ(unknown.err, "error: no check and no key is named \"fleet-angel\"; did you mean \"fleet-angle\"?\n");
  const Ran bare = run("explain mbs");
  EXPECT_EQ(bare.status, 2);
  EXPECT_NE(bare.err.find("a key is named with its section: main_line.mbs, "), std::string::npos) << bare.err;
}

TEST(Options, AreRefusedWithWhatToWriteInstead) {
  const auto err = [](const std::string& arguments) {
    const Ran ran = run(arguments);
    EXPECT_EQ(ran.status, 2) << arguments;
    EXPECT_EQ(ran.out, "") << arguments;
    return ran.err;
  };
  EXPECT_EQ(err("chekc x.toml"), "error: there is no command \"chekc\"\ndid you mean check?\n");
  EXPECT_EQ(err("frobnicate"),
            "error: there is no command \"frobnicate\"\n"
            "write one of check, draw, setout, arrest, asbuilt, trial, records, compare, new, explain\n");
  EXPECT_NE(err(std::string("check --unit si ") + good).find("did you mean --units?"), std::string::npos);
  EXPECT_NE(err(std::string("check --units metric ") + good).find("si"), std::string::npos);
  EXPECT_EQ(err(std::string("check --date 2027-02-30 ") + good),
            "error: --date 2027-02-30: write a date of the calendar as YYYY-MM-DD, for example 2026-05-14\n");
  EXPECT_EQ(err(std::string("check --set travel ") + good),
            "error: --set travel: write --set KEY=VALUE, for example --set brake_trolley.travel=\"12 m\"\n");
  EXPECT_NE(err("check").find("LAYOUT"), std::string::npos);
  EXPECT_NE(err("check no-such-file.toml").find("no-such-file.toml"), std::string::npos);
  err("");
}

TEST(Options, HelpAndVersionAreNoErrors) {
  const Ran version = run("--version");
  EXPECT_EQ(version.status, 0);
  EXPECT_EQ(version.out, "fairlead " FAIRLEAD_VERSION "\n");
  const Ran help = run("--help");
  EXPECT_EQ(help.status, 0);
  EXPECT_NE(help.out.find("examples:"), std::string::npos);
  EXPECT_NE(help.out.find("A calculation aid, not an approval."), std::string::npos);
  EXPECT_EQ(run("check --help").status, 0);
}

TEST(Options, TheHelpOfACommandShowsExamplesOfThatCommandAlone) {
  const std::vector<std::string> commands{"check",   "draw",  "compare", "setout", "arrest",
                                          "asbuilt", "trial", "new",     "explain"};
  for (const std::string& command : commands) {
    const std::string help = run(command + " --help").out;
    EXPECT_NE(help.find("  fairlead " + command + ' '), std::string::npos) << command;
    EXPECT_NE(help.find("exit status: 0 cleared"), std::string::npos) << command;
    for (const std::string& other : commands)
      if (other != command) {
        EXPECT_EQ(help.find("  fairlead " + other + ' '), std::string::npos) << command << " shows " << other;
      }
  }
}

}  // namespace
}  // namespace fairlead::cli_test

#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* good = "layouts/heron_gully.toml";

std::string expected(const std::string& name) { return read_file(FAIRLEAD_SOURCE_DIR "/tests/cli/" + name); }

/// The good layout with one text in place of another, as a file.
std::string changed(const Scratch& scratch, const std::string& was, const std::string& is) {
  std::string text = read_file(std::string(FAIRLEAD_SOURCE_DIR "/") + good);
  EXPECT_NE(text.find(was), std::string::npos) << was;
  write_file(scratch / "new.toml", text.replace(text.find(was), was.size(), is));
  return scratch / "new.toml";
}

std::string compared(const std::string& now) {
  const Ran ran = run(std::string("compare ") + good + " " + now);
  EXPECT_EQ(ran.status, 0) << ran.err;
  return ran.out;
}

// The two files hold what was read through line by line against the FAULT marks of the spoiled layouts. To renew them:
// build/release/fairlead compare layouts/heron_gully.toml layouts/heron_gully_spoiled.toml >tests/cli/compare_heron.txt
TEST(Compare, TellsEveryFaultThatTheSpoiledGullyBrings) {
  EXPECT_EQ(compared("layouts/heron_gully_spoiled.toml"), expected("compare_heron.txt"));
}

TEST(Compare, TellsEveryMistakeThatTheSpoiledRidgeBrings) {
  const Ran ran = run("compare layouts/marten_ridge.toml layouts/marten_ridge_spoiled.toml");
  EXPECT_EQ(ran.status, 0) << "it ran, whatever it found";
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.out, expected("compare_marten.txt"));
}

TEST(Compare, OneFileTwiceIsNoChange) {
  const std::string out = compared(good);
  EXPECT_EQ(out.substr(0, out.find("\n\n")),
            "NO CHANGE: no input differs; comments, the order of keys and how numbers are written are not\n"
            "compared. The two files are the same, byte for byte.");
  EXPECT_EQ(out.find("REVISION"), std::string::npos);
}

TEST(Compare, AnotherCommentIsNoChangeThoughTheFilesDiffer) {
  const Scratch scratch;
  const std::string out = compared(changed(scratch, "# portal over the main line", "# the portal over the main line"));
  EXPECT_TRUE(out.starts_with("NO CHANGE: ")) << out;
  EXPECT_NE(out.find("The two files are not the same byte for byte."), std::string::npos) << out;
}

TEST(Compare, TheErrorsOfBothFilesComeAtOnce) {
  const Scratch scratch;
  const std::string text = read_file(std::string(FAIRLEAD_SOURCE_DIR "/") + good);
  const auto misspelt = [&](const std::string& name, const std::string& was, const std::string& is) {
    std::string copy = text;
    write_file(scratch / name, copy.replace(copy.find(was), was.size(), is));
  };
  misspelt("old.toml", "axle = [", "axel = [");
  misspelt("new.toml", "wll = \"45 kN\"", "wll = \"45 ton\"");
  const Ran ran = run("compare " + scratch / "old.toml" + " " + scratch / "new.toml");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find(scratch / "old.toml:74:1: error: sheave \"R1\": unknown key \"axel\""), std::string::npos)
      << ran.err;
  EXPECT_NE(ran.err.find(scratch / "new.toml:53:7: error: anchor \"P1\": \"ton\" may mean"), std::string::npos)
      << ran.err;
  const Ran missing = run(std::string("compare no-such.toml ") + good);
  EXPECT_EQ(missing.status, 2);
  EXPECT_EQ(missing.err, "no-such.toml: error: there is no such file\n");
  const Ran day = run(std::string("compare --date 2027-02-30 ") + good + " " + good);
  EXPECT_EQ(day.err, "error: --date 2027-02-30: write a date of the calendar as YYYY-MM-DD, for example 2026-05-14\n")
      << "once, not for each file";
}

TEST(Compare, AWaiverOfNoCheckIsRefusedInEitherFile) {
  const Scratch scratch;
  const std::string bad = changed(scratch, "check = \"hands-at-trolley\"", "check = \"hand-at-trolley\"");
  for (const std::string& files : {bad + " " + good, std::string(good) + " " + bad}) {
    const Ran ran = run("compare " + files);
    EXPECT_EQ(ran.status, 2);
    EXPECT_NE(ran.err.find("write \"hands-at-trolley\""), std::string::npos) << ran.err;
  }
}

TEST(Compare, AnotherRevisionAndDateStopTheWarnings) {
  const Scratch scratch;
  std::string text = read_file(std::string(FAIRLEAD_SOURCE_DIR "/") + good);
  const auto replace = [&](const std::string& was, const std::string& is) {
    text.replace(text.find(was), was.size(), is);
  };
  replace("revision = \"B\"\ndate = 2026-10-30", "revision = \"C\"\ndate = 2026-12-01");
  replace("travel = \"15 m\"", "travel = \"15.5 m\"");
  write_file(scratch / "new.toml", text);
  const std::string out = compared(scratch / "new.toml");
  EXPECT_EQ(out.substr(out.find("REVISION TABLE")),
            "REVISION TABLE\n\n[[project.history]]\nrevision = \"C\"\n"
            "change = \"brake trolley travel 15.000 m to 15.500 m\"\nby = \"M. Okafor\"\ndate = 2026-12-01\n");
  // The line, pasted, is a layout that reads; and then the only other change is that row.
  const std::string row = out.substr(out.find("[[project.history]]"));
  write_file(scratch / "pasted.toml", text + "\n" + row);
  const Ran pasted = run("compare " + scratch / "new.toml" + " " + scratch / "pasted.toml");
  EXPECT_EQ(pasted.status, 0) << pasted.err;
  EXPECT_NE(pasted.out.find("added    row C of the revision table: "), std::string::npos) << pasted.out;
}

TEST(Compare, AnUnsolvedSideIsSaidWithItsReason) {
  const Scratch scratch;
  const std::string out = compared(changed(scratch, "tension = \"18 kN\"", "tension = \"0.5 kN\""));
  EXPECT_TRUE(out.starts_with("CHANGED, NO LONGER CLEARED: 1 input, 40 newly undetermined\n")) << out;
  EXPECT_NE(out.find("Undetermined in the new file: the main line's own weight needs more than the measured tension"),
            std::string::npos)
      << out;
}

TEST(Compare, TheJsonIsTheSameOnAnyNumberOfThreads) {
  const std::string files = "layouts/heron_gully.toml layouts/heron_gully_spoiled.toml";
  const Ran one = run("compare --format json --threads 1 " + files);
  EXPECT_EQ(one.status, 0);
  EXPECT_GT(one.out.size(), 1000u);
  EXPECT_EQ(run("compare --format json --threads 3 " + files).out, one.out);
}

}  // namespace
}  // namespace fairlead::cli_test

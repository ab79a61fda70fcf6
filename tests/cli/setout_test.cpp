#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* good = "layouts/heron_gully.toml ";

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST(Setout, PrintsTheVerdictThenWhatTheRigIsSetOutByAndTheCautions) {
  const Ran ran = run(std::string("setout ") + good);
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(first_line(ran.out), "CLEARED by these checks: 48 pass, 1 waived (hands-at-trolley L1)");
  std::size_t at = 0;
  for (const char* title : {"\nSETTING OUT\n", "\nSet-out points\n", "\nOffsets from the bare main line\n",
                            "\nLevels\n", "\nSheave axles\n", "\nPlaces to check by\n", "\nLine lengths\n",
                            "\nStringing the main line\n", "\nHand pulls\n", "\nTaken for granted\n", "\nCautions\n"}) {
    const std::size_t next = ran.out.find(title, at);
    ASSERT_NE(next, std::string::npos) << title << ran.out;
    at = next;
  }
}

TEST(Setout, NoLineIsWiderThanATerminal) {
  for (const char* layout : {"heron_gully", "marten_ridge", "sable_weir", "larch_spur"})
    for (const char* units : {"si", "us", "both"})
      expect_narrow(run(std::string("setout layouts/") + layout + ".toml --units " + units).out);
}

TEST(Setout, OfARigThatIsNotClearedSaysSoFirstAndReturnsOne) {
  const Ran ran = run("setout layouts/heron_gully_spoiled.toml");
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(first_line(ran.out), "NOT CLEARED: 9 fail, 16 not judged");
  EXPECT_NE(ran.out.find("\nSet-out points\n"), std::string::npos);
}

TEST(Setout, WritesWhatItWouldPrint) {
  const Scratch scratch;
  for (const char* format : {"text", "json"}) {
    const std::string file = scratch / (std::string("site.") + (format == std::string("text") ? "txt" : format));
    const Ran printed = run(std::string("setout --format ") + format + " " + good),
              written = run(std::string("setout ") + good + "-o " + file);
    EXPECT_EQ(written.status, 0) << written.err;
    EXPECT_EQ(written.out, first_line(run(std::string("check ") + good).out) + "\n" + file + " written\n");
    EXPECT_EQ(read_file(file), printed.out) << format;
    EXPECT_GT(printed.out.size(), 1000u);
  }
}

TEST(Setout, TheJsonIsTheSameOnAnyNumberOfThreads) {
  const std::string one = run(std::string("setout --format json --threads 1 ") + good).out;
  EXPECT_EQ(run(std::string("setout --format json --threads 2 ") + good).out, one);
}

TEST(Setout, AFileOfAnotherKindIsRefusedBeforeAnythingIsComputed) {
  const Scratch scratch;
  const Ran ran = run(std::string("setout ") + good + "-o " + scratch / "site.doc");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, "error: -o " + scratch / "site.doc" + ": end the file's name in .pdf, .csv, .json or .txt\n");
  const Ran both = run(std::string("setout --format text ") + good + "-o " + scratch / "site.json");
  EXPECT_EQ(both.status, 2);
  EXPECT_EQ(both.err, "error: -o " + scratch / "site.json" + ": --format text is another format: leave --format out\n");
  EXPECT_EQ(scratch.files(), 0);
}

TEST(Setout, APointsFileNeedsItsOrderAndItsUnit) {
  const std::string needs =
      "error: a points file needs --order (pnezd, penzd or named) and --unit (m, mm, ft or us_survey_ft): neither can "
      "be told from its numbers\n";
  for (const char* options : {"", "--order named ", "--unit m "}) {
    const Ran ran = run(std::string("setout --format csv ") + options + good);
    EXPECT_EQ(ran.status, 2) << options;
    EXPECT_EQ(ran.err, needs) << options;
    EXPECT_EQ(ran.out, "");
  }
  const Ran idle = run(std::string("setout --unit m ") + good);
  EXPECT_EQ(idle.status, 2);
  EXPECT_EQ(idle.err, "error: --order and --unit are of a points file: write --format csv or -o FILE.csv\n");
}

TEST(Setout, ThePointsFileHasEveryMarkInTheOrderAndUnitAskedFor) {
  const Ran pnezd = run(std::string("setout --format csv --order pnezd --unit m ") + good);
  EXPECT_EQ(pnezd.status, 0) << pnezd.err;
  const Ran penzd = run(std::string("setout --format csv --order penzd --unit mm ") + good);
  const auto row = [](const std::string& text, const std::string& id) {
    const std::size_t at = text.find("\n" + id + ",");
    return at == std::string::npos ? std::string() : text.substr(at + 1, text.find('\n', at + 1) - at - 1);
  };
  EXPECT_TRUE(pnezd.out.starts_with("# marks to set out, layout of sha256 ")) << pnezd.out;
  EXPECT_NE(pnezd.out.find("\n# order pnezd, unit m\n"), std::string::npos);
  EXPECT_EQ(row(pnezd.out, "P1"), "P1,800.0000,1200.0000,341.5000,bearing point of anchor P1: where the load acts");
  EXPECT_EQ(row(penzd.out, "P1"), "P1,1200000.0,800000.0,341500.0,bearing point of anchor P1: where the load acts");
  const Scratch scratch;
  const std::string file = scratch / "points.csv";
  EXPECT_EQ(run(std::string("setout --order pnezd --unit m ") + good + "-o " + file).status, 0);
  EXPECT_EQ(read_file(file), pnezd.out);
}

TEST(Setout, ThePdfIsThatOfTheCrewAndTheSameTwice) {
  const Scratch scratch;
  for (const char* name : {"a.pdf", "b.pdf"}) {
    const Ran ran = run(std::string("setout ") + good + "-o " + scratch / name);
    EXPECT_EQ(ran.status, 0) << ran.err;
  }
  const std::string pdf = read_file(scratch / "a.pdf");
  EXPECT_EQ(pdf.substr(0, 5), "%PDF-");
  EXPECT_TRUE(pdf == read_file(scratch / "b.pdf"));
  const Ran font = run(std::string("setout --font /no/such/font.ttf ") + good + "-o " + scratch / "c.pdf");
  EXPECT_EQ(font.status, 2);
  EXPECT_NE(font.err.find("/no/such/font.ttf"), std::string::npos) << font.err;
  EXPECT_FALSE(exists(scratch / "c.pdf"));
}

// 1200 m are 1200 x 3937 / 1200 US survey feet (the definition of that foot), and 1200 / 0.3048 international ones.
TEST(Setout, TakesEveryOrderAndUnitOfAPointsFileByItsOption) {
  for (const char* order : {"pnezd", "penzd", "named"})
    for (const auto& [unit, east] :
         {std::pair{"m", "1200.0000"}, {"mm", "1200000.0"}, {"ft", "3937.0079"}, {"us_survey_ft", "3937.0000"}}) {
      const Ran ran = run(std::string("setout --format csv --order ") + order + " --unit " + unit + " " + good);
      EXPECT_EQ(ran.status, 0) << ran.err;
      EXPECT_NE(ran.out.find(east), std::string::npos) << order << " " << unit << "\n" << ran.out;
    }
}

TEST(Setout, NoTapeIsLongerThanTheLongestAndALengthThatIsNoneIsRefused) {
  const std::string out = run(std::string("setout --units si --tape '12 m' ") + good).out;
  EXPECT_NE(out.find("no longer than 12.000 m"), std::string::npos) << out;
  const Ran bare = run(std::string("setout --tape long ") + good);
  EXPECT_EQ(bare.status, 2);
  EXPECT_TRUE(bare.err.starts_with("error: --tape long: ")) << bare.err;
  const Ran none = run(std::string("setout --tape '0 m' ") + good);
  EXPECT_EQ(none.status, 2);
  EXPECT_EQ(none.err, "error: --tape 0 m: a tape has a length above 0, for example \"30 m\"\n");
}

TEST(Setout, LeavesNothingWhereItCannotWriteAndAnOldFileAloneWhereTheLayoutIsBad) {
  const Scratch scratch;
  const Ran nowhere = run(std::string("setout ") + good + "-o " + scratch / "no/such/folder/a.txt");
  EXPECT_EQ(nowhere.status, 2);
  EXPECT_EQ(nowhere.out, "");
  EXPECT_NE(nowhere.err.find("no/such/folder/a.txt"), std::string::npos) << nowhere.err;
  EXPECT_EQ(scratch.files(), 0);
  write_file(scratch / "old.txt", "yesterday's");
  const Ran bad = run(std::string("setout ") + good + "--set main_line.tension=oops -o " + scratch / "old.txt");
  EXPECT_EQ(bad.status, 2);
  EXPECT_EQ(read_file(scratch / "old.txt"), "yesterday's");
  EXPECT_EQ(scratch.files(), 1);
}

TEST(Setout, FindsHowFarTheMarksMayBeOff) {
  const std::string without = run(std::string("setout ") + good).out;
  EXPECT_EQ(without.find("\nBox of all marks at once\n"), std::string::npos);
  const std::string out = run(std::string("setout --windows ") + good).out;
  const std::size_t box = out.find("\nBox of all marks at once\n"), windows = out.find("\nPlacement windows\n");
  ASSERT_NE(box, std::string::npos);
  ASSERT_NE(windows, std::string::npos);
  // The sheave may be off across by the 50 mm that its contacts may; together with the main line's ends by less.
  const std::size_t row = out.find("R1    to the left", windows);
  ASSERT_NE(row, std::string::npos) << out.substr(windows);
  EXPECT_NE(out.substr(row, 60).find("49 mm"), std::string::npos) << out.substr(row, 60);
  EXPECT_NE(out.substr(row, 60).find("across-offset"), std::string::npos) << out.substr(row, 60);
}

TEST(Setout, TellsOnATerminalWhatTakesLongerThanASecond) {
  const Scratch scratch;
  // "script" runs it on a terminal of its own and passes its status on.
  const std::string shell = std::string("cd '") + FAIRLEAD_SOURCE_DIR + "' && script -qec \"'" + FAIRLEAD_PROGRAM +
                            "' setout --windows --threads 1 layouts/heron_gully.toml -o '" + scratch / "a.txt" +
                            "'\" /dev/null >'" + scratch / "seen" + "' 2>&1";
  EXPECT_EQ(std::system(shell.c_str()), 0);
  EXPECT_NE(read_file(scratch / "seen").find("placement windows: "), std::string::npos) << read_file(scratch / "seen");
  EXPECT_EQ(read_file(scratch / "a.txt").find("placement windows: "), std::string::npos);
}

TEST(Setout, InterruptedLeavesNothingBehind) {
  const Scratch scratch;
  const std::string shell = std::string("cd '") + FAIRLEAD_SOURCE_DIR + "' && timeout --preserve-status -s INT 1 '" +
                            FAIRLEAD_PROGRAM + "' setout --windows layouts/larch_spur.toml -o '" + scratch / "a.txt" +
                            "' 2>/dev/null";
  const int status = std::system(shell.c_str());
  EXPECT_EQ(WEXITSTATUS(status), 130);
  EXPECT_EQ(scratch.files(), 0);
}

TEST(Setout, HasNoBoxWhereTheLayoutIsNotCleared) {
  const Ran ran = run("setout --windows layouts/heron_gully_spoiled.toml");
  EXPECT_EQ(ran.status, 1);
  EXPECT_NE(ran.out.find("not pass as drawn"), std::string::npos);
}

TEST(Setout, AMisspeltOptionIsGuessed) {
  const Ran ran = run(std::string("setout --formt json ") + good);
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("did you mean --format?"), std::string::npos) << ran.err;
}

}  // namespace
}  // namespace fairlead::cli_test

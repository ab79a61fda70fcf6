// A concept at the command line: arrest reads it, every other command says who does.
#include <gtest/gtest.h>

#include <vector>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* idea = "layouts/ember_hollow_concept.toml ";

TEST(ArrestOfAConcept, PrintsAFirstEstimateAndReturnsWhatItsFindingsAsk) {
  const Ran ran = run(std::string("arrest ") + idea);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, ran.out.starts_with("PASSED AS A FIRST ESTIMATE by these checks: ") ? 0 : 1);
  EXPECT_NE(ran.out.find("AS A FIRST ESTIMATE"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("\nReductions and slopes compared: predicted, untested\n"), std::string::npos);
  for (const char* units : {"si", "us", "both"})
    expect_narrow(run(std::string("arrest ") + idea + "--units " + units).out);
}

TEST(ArrestOfAConcept, PassesWhereEveryLimitIsGivenAndKept) {
  const Ran ran = run(std::string("arrest ") + idea);
  EXPECT_EQ(ran.status, 0) << ran.out << ran.err;
  EXPECT_TRUE(ran.out.starts_with("PASSED AS A FIRST ESTIMATE by these checks: ")) << ran.out;
  EXPECT_EQ(ran.out.find("CLEARED"), std::string::npos) << "nobody is cleared by a concept";
  const Ran higher = run(std::string("arrest ") + idea + "--set concept.ratio=4");
  EXPECT_EQ(higher.status, 1) << higher.out;
  EXPECT_TRUE(higher.out.starts_with("NOT PASSED AS A FIRST ESTIMATE: ")) << higher.out;
}

TEST(ArrestOfAConcept, WritesWhatItWouldPrintOnAnyNumberOfThreads) {
  const Scratch scratch;
  for (const std::string format : {"text", "json"}) {
    const std::string file = scratch / ("idea." + (format == "text" ? "txt" : format));
    const Ran printed = run("arrest --threads 1 --format " + format + " " + idea),
              written = run("arrest --threads 2 " + (idea + ("-o " + file)));
    EXPECT_EQ(written.err, "");
    EXPECT_EQ(written.status, printed.status);
    EXPECT_TRUE(written.out.ends_with("\n" + file + " written\n")) << written.out;
    EXPECT_EQ(read_file(file), printed.out) << format;
  }
}

TEST(ArrestOfAConcept, ADateIsRefusedAndAWrongKeyIsToldWithItsPlace) {
  const Ran dated = run(std::string("arrest --date 2026-05-14 ") + idea);
  EXPECT_EQ(dated.status, 2);
  EXPECT_EQ(dated.err, "error: --date: nothing in a concept is judged by a date: leave it out\n");
  const Scratch scratch;
  const Ran wrong = run("arrest tests/bad_layouts/concept.toml -o " + scratch / "idea.txt");
  EXPECT_EQ(wrong.status, 2);
  EXPECT_EQ(wrong.out, "");
  EXPECT_TRUE(wrong.err.starts_with("tests/bad_layouts/concept.toml:")) << wrong.err;
  EXPECT_EQ(scratch.files(), 0);
}

TEST(OtherCommands, NameTheOneThatReadsAConcept) {
  const Scratch scratch;
  for (const std::string& command :
       std::vector<std::string>{"check ", "draw -o " + scratch / "a.pdf" + " ", "setout "}) {
    const Ran ran = run(command + idea);
    EXPECT_EQ(ran.status, 2) << command;
    EXPECT_EQ(ran.out, "") << command;
    EXPECT_NE(ran.err.find("\"fairlead arrest\" reads a concept"), std::string::npos) << ran.err;
  }
  EXPECT_EQ(scratch.files(), 0);
}

TEST(NewConcept, IsOneThatArrestReads) {
  const Scratch scratch;
  EXPECT_EQ(run("new --concept -o " + scratch / "idea.toml").status, 0);
  EXPECT_EQ(read_file(scratch / "idea.toml"), run("new --concept").out);
  const Ran ran = run("arrest " + scratch / "idea.toml");
  EXPECT_LE(ran.status, 1) << ran.err;
  EXPECT_EQ(ran.err, "");
}

}  // namespace
}  // namespace fairlead::cli_test

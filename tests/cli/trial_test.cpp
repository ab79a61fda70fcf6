#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

const std::string plan = "trial layouts/heron_gully.toml ", tried = plan + "layouts/heron_gully_trial.csv ";

void expect_in_order(const std::string& text, std::initializer_list<const char*> titles) {
  std::size_t at = 0;
  for (const char* title : titles) {
    const std::size_t next = text.find(title, at);
    ASSERT_NE(next, std::string::npos) << title << text;
    at = next;
  }
}

TEST(Trial, WithoutResultsItIsThePlanAndClearsWhatTheLayoutClears) {
  const Ran ran = run(plan);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, 0);
  expect_in_order(ran.out,
                  {"CLEARED by these checks: ", "\nUNMANNED TESTS: predicted, untested\n", "\nHow they are made\n",
                   "\nHand pulls: predicted, untested\n", "\nTest masses in their order: predicted, untested\n",
                   "\nAccepted by\n", "\nStop, and find out why before anything else is let go\n", "\nCautions\n"});
  expect_narrow(ran.out);
}

TEST(Trial, OfALayoutThatIsNotClearedThePlanDoesNotClear) {
  EXPECT_EQ(run("trial layouts/heron_gully_spoiled.toml").status, 1);
}

TEST(Trial, WithResultsItTellsTheirVerdictFirst) {
  const Ran ran = run(tried);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, 0);
  expect_in_order(ran.out, {"CLEARED by these checks: ", "\nTRIAL: pass, layouts/heron_gully_trial.csv\n",
                            "\nUNMANNED TESTS: predicted against measured\n", "\nTests\n",
                            "\nPredicted against measured\n", "\nCautions\n"});
  expect_narrow(ran.out);
}

TEST(Trial, ATestThatWasNotMadeClearsNothing) {
  const Scratch scratch;
  const std::string file = scratch / "tests.csv";
  write_file(file, "test,quantity,value,unit,uncertainty\nH1,pull_on,50,N,0.5\n");
  const Ran ran = run(plan + file);
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_TRUE(ran.out.starts_with("NOT CLEARED by its unmanned tests: undetermined. Without them: CLEARED by these "))
      << ran.out;
  EXPECT_NE(ran.out.find("\nTRIAL: undetermined, " + file +
                         "\nsha256 af79a37266b9c9e06a9e8d58d3ff245d28d0024ac68fc81a54c21be4ac90f1d4\n"),
            std::string::npos)
      << "as sha256sum has it\n"
      << ran.out;
  const Ran drawn = run("draw layouts/heron_gully.toml --trial " + file + " -o " + (scratch / "set.pdf"));
  EXPECT_EQ(drawn.status, 1) << drawn.err;
  EXPECT_TRUE(drawn.out.starts_with("NOT CLEARED by its unmanned tests: undetermined.")) << drawn.out;
  EXPECT_NE(ran.out.find("untested"), std::string::npos);
}

TEST(Trial, WritesWhatItWouldPrintTheSameOnAnyNumberOfThreads) {
  const Scratch scratch;
  const std::string file = scratch / "trial.json";
  const Ran printed = run(tried + "--format json --threads 1"), written = run(tried + "--threads 2 -o " + file);
  EXPECT_EQ(written.err, "");
  EXPECT_EQ(read_file(file), printed.out);
  EXPECT_GT(printed.out.size(), 1000u);
}

TEST(Trial, EveryErrorOfEveryFileIsToldAtOnceAndNothingIsWritten) {
  const Scratch scratch;
  const std::string layout = scratch / "site.toml", file = scratch / "tests.csv", out = scratch / "trial.txt";
  write_file(layout, "[project]\nowner = 1\n");
  write_file(file, "test,quantity,value,unit,uncertainty\nM1,mass,50,kg,0\n");
  const Ran ran = run("trial " + layout + " " + file + " -o " + out);
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("site.toml:2:"), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("tests.csv:2:15: error: the uncertainty is not above 0"), std::string::npos) << ran.err;
  EXPECT_FALSE(exists(out));
}

TEST(Trial, WhatThePlanDoesNotHaveIsRefusedWithWhatToWrite) {
  const Scratch scratch;
  const std::string file = scratch / "tests.csv";
  write_file(file, "test,quantity,value,unit,uncertainty\nM12,mass,50,kg,1\n");
  const Ran ran = run(plan + file);
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, file +
                         ":2:1: error: the plan has no test \"M12\"\n"
                         "    2 |   M12,mass,50,kg,1\n"
                         "      |   ^^^ did you mean \"M1\"?\n");
}

}  // namespace
}  // namespace fairlead::cli_test

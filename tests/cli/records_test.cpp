#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

const std::string demo =
    "records layouts/heron_gully.toml layouts/heron_gully_register.csv layouts/heron_gully_worn.csv ";

TEST(RecordsCommand, TellsWhatIsOverdueOrOpenFirstAndWhatIsLeftOfTheRest) {
  const Ran ran = run(demo + "--log layouts/heron_gully_log.csv --date 2026-10-30");
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, 1);
  EXPECT_TRUE(ran.out.starts_with("RECORDS NOT IN ORDER: 2 fail")) << ran.out;
  std::size_t at = 0;
  for (const char* title : {"\nRECORDS\n", "\njudged on 2026-10-30\n", "\nNot in order\n", "29 d over", "open 18 d",
                            "\nIn order\n", "32 d left", "2.4 % worn", "\nRegister of parts\n", "\nCautions\n"}) {
    const std::size_t next = ran.out.find(title, at);
    ASSERT_NE(next, std::string::npos) << title << ran.out;
    at = next;
  }
  expect_narrow(ran.out);
}

TEST(RecordsCommand, WritesWhatItWouldPrint) {
  const Scratch scratch;
  const std::string file = scratch / "records.json";
  const Ran printed = run(demo + "--format json --date 2026-10-30"), kept = run(demo + "--date 2026-10-30 -o " + file);
  EXPECT_EQ(read_file(file), printed.out) << kept.err;
  EXPECT_GT(printed.out.size(), 1000u);
}

TEST(RecordsCommand, EveryErrorOfEveryFileIsToldAtOnceAndNothingIsWritten) {
  const Scratch scratch;
  const std::string parts = scratch / "register.csv", log = scratch / "log.csv", out = scratch / "records.txt";
  write_file(parts, "part,serial,retire_by\nR1,S1,2026-13-01\n");
  write_file(log, "id,found,part\nF1,2026-01-01,R1\n");
  const Ran ran = run("records layouts/heron_gully.toml " + parts + " --log " + log + " -o " + out);
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, parts +
                         ":2:7: error: the retire_by \"2026-13-01\" is no day of the calendar\n"
                         "    2 |   R1,S1,2026-13-01\n"
                         "      |         ^^^^^^^^^^ write it like 2026-10-30\n" +
                         log +
                         ":1:1: error: the header does not name the column what\n"
                         "    1 |   id,found,part\n"
                         "      |   ^^^^^^^^^^^^^ begin the file with a line like id,found,part,what,closed,by,how\n");
  EXPECT_FALSE(exists(out));
  write_file(parts, "part,serial\nR9,S1\n");
  const Ran stranger = run("records layouts/heron_gully.toml " + parts);
  EXPECT_EQ(stranger.status, 2);
  EXPECT_NE(stranger.err.find(":2:1: error: the layout has no part \"R9\"\n"), std::string::npos) << stranger.err;
}

}  // namespace
}  // namespace fairlead::cli_test

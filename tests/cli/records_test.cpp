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
  // A date that is none does not keep a stranger from being told.
  write_file(parts, "part,serial,retire_by\nR1,S1,2026-13-01\nR9,S1,\n");
  write_file(log, "id,found,part,what\nF1,2026-01-01,roof,leaks\nF2,2026-01-32,R1,rough\n");
  const Ran both = run("records layouts/heron_gully.toml " + parts + " --log " + log);
  EXPECT_EQ(both.status, 2);
  for (const char* error : {":2:7: error: the retire_by \"2026-13-01\"", ":3:1: error: the layout has no part \"R9\"\n",
                            ":2:15: error: the layout has no part \"roof\"\n", ":3:4: error: the found \"2026-01-32\""})
    EXPECT_NE(both.err.find(error), std::string::npos) << error << both.err;
}

/// The register with another unit in the place of the rig's own.
std::string with_unit(const Scratch& scratch, const std::string& serial) {
  std::string text = read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_register.csv");
  const std::size_t at = text.find("brake_unit,0417");
  text.replace(at, std::string("brake_unit,0417").size(), "brake_unit," + serial);
  const std::string file = scratch / "register.csv";
  write_file(file, text);
  return file;
}

// Everything is judged with the unit that stands in; what was open stays open.
TEST(RecordsCommand, AUnitOnLoanIsJudgedByItsOwnDataAndWhatIsOpenStaysOpen) {
  const Scratch scratch;
  const std::string parts = with_unit(scratch, "0522"), units = " --units-file layouts/heron_gully_units.csv ",
                    log = " --log layouts/heron_gully_log.csv --date 2026-10-30";
  const std::string other_unit = "is in service, and the layout has the data of", json = " --format json";
  const Ran other = run("records layouts/heron_gully.toml " + parts + log + json);
  EXPECT_NE(other.out.find(other_unit), std::string::npos) << other.out;
  EXPECT_EQ(run("records layouts/heron_gully.toml " + parts + log + units + "--loan 0522" + json).out.find(other_unit),
            std::string::npos);
  const Ran ran = run("records layouts/heron_gully.toml " + parts + log + units + "--loan 0522");
  EXPECT_EQ(ran.err, "");
  EXPECT_TRUE(ran.out.starts_with("RECORDS NOT IN ORDER: 2 fail")) << ran.out;
  EXPECT_NE(ran.out.find("open 18 d"), std::string::npos) << ran.out;

  const Ran judged = run("check layouts/heron_gully.toml" + units + "--loan 0522");
  EXPECT_EQ(judged.err, "");
  EXPECT_NE(judged.out.find("certificate due 2027-06-30"), std::string::npos) << judged.out;
  EXPECT_NE(judged.out.find("of 18.000 m is out"), std::string::npos) << judged.out;
  EXPECT_NE(judged.out.find("brake_unit.serial = \"0522\", from the command line"), std::string::npos) << judged.out;
  // A change that is tried comes behind the data.
  EXPECT_NE(run("check layouts/heron_gully.toml" + units + "--loan 0522 --set brake_unit.extension_limit='19 m'")
                .out.find("of 19.000 m is out"),
            std::string::npos);
}

// A key that the file does not have is not that of the unit it stands in for.
TEST(RecordsCommand, NothingOfTheUnitThatIsAwayIsLeft) {
  const Scratch scratch;
  const std::string file = scratch / "units.csv";
  std::string text = read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_units.csv");
  const auto drop = [&](const std::string& key) {
    const std::size_t at = text.find("0522," + key + ",");
    text.erase(at, text.find('\n', at) + 1 - at);
  };
  drop("certificate_due");
  write_file(file, text);
  const std::string loan = "check layouts/heron_gully.toml --loan 0522 --units-file " + file;
  const Ran undated = run(loan);
  EXPECT_EQ(undated.status, 1) << undated.err;
  EXPECT_EQ(undated.out.find("2027-04-30"), std::string::npos) << undated.out;
  EXPECT_NE(undated.out.find("brake_unit.certificate_due left out, from the command line"), std::string::npos)
      << undated.out;
  drop("extension_limit");
  drop("eddy");
  write_file(file, text);
  const Ran refused = run(loan);
  EXPECT_EQ(refused.status, 2);
  for (const char* key : {"extension_limit", "eddy"})
    EXPECT_NE(refused.err.find(key), std::string::npos) << key << refused.err;
}

TEST(RecordsCommand, AUnitThatNobodyHasTheDataOfIsRefused) {
  const Scratch scratch;
  const Ran none = run("check layouts/heron_gully.toml --loan 0523 --units-file layouts/heron_gully_units.csv");
  EXPECT_EQ(none.status, 2);
  EXPECT_EQ(none.err, "error: --loan 0523: layouts/heron_gully_units.csv has no such unit; known: 0522\n");
  EXPECT_EQ(run("check layouts/heron_gully.toml --loan 0522").status, 2);
  const std::string file = scratch / "units.csv";
  write_file(file,
             "serial,key,value\n0522,extension_limt,18 m\n0522,outlet,0\n0522,mass,4 kg\n0522,mass,5 kg\n,mass,1 kg\n");
  const Ran wrong = run("check layouts/heron_gully.toml --loan 0522 --units-file " + file);
  EXPECT_EQ(wrong.status, 2);
  for (const char* error :
       {":2:6: error: \"extension_limt\" is none of a unit's keys\n", "did you mean \"extension_limit\"?",
        ":3:6: error: \"outlet\" is none of a unit's keys\n",
        ":5:6: error: mass of \"0522\" stands in line 4 already\n", ":6:1: error: the line has no serial\n"})
    EXPECT_NE(wrong.err.find(error), std::string::npos) << error << wrong.err;
}

TEST(RecordsCommand, WritesFormsToInspectThisRigByTheSameOnAnyNumberOfThreads) {
  const Scratch scratch;
  const std::string one = scratch / "one.pdf", two = scratch / "two.pdf";
  const std::string forms = demo + "--log layouts/heron_gully_log.csv --date 2026-10-30 ";
  const Ran ran = run(forms + "--threads 1 -o " + one);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(ran.out, run(forms).out.substr(0, ran.out.find('\n')) + "\n" + one + " written\n");
  run(forms + "--threads 2 -o " + two);
  EXPECT_EQ(read_file(one), read_file(two));
  EXPECT_TRUE(read_file(one).starts_with("%PDF"));
}

}  // namespace
}  // namespace fairlead::cli_test

#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* good = "layouts/heron_gully.toml ";
constexpr const char* spoiled = "layouts/heron_gully_spoiled.toml ";

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

/// The part of the report under a heading such as "FAIL".
std::string under(const std::string& text, const std::string& heading) {
  const std::size_t from = text.find("\n" + heading + "\n");
  if (from == std::string::npos) return {};
  return text.substr(from, text.find("\n\n", from + 1) - from);
}

TEST(Check, ClearsTheDemoWithAllItsLimitsSet) {
  const Ran ran = run(std::string("check ") + good);
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(first_line(ran.out), "CLEARED by these checks: 48 pass, 1 waived (hands-at-trolley L1)");
  EXPECT_EQ(ran.err, "");
}

TEST(Check, FindsEachFaultOfTheSpoiledLayoutOnce) {
  const Ran ran = run(std::string("check ") + spoiled);
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(first_line(ran.out), "NOT CLEARED: 9 fail, 16 not judged");
  const std::string failed = under(ran.out, "FAIL");
  for (const char* fault : {"fleet-angle ", "lead-angle ", "lead-in-wind ", "across-offset ", "anchor-utilisation ",
                            "extension-reserve ", "certificate-date ", "backup-brake ", "hands-at-trolley "})
    EXPECT_EQ(count(failed, std::string("\n  ") + fault), 1) << fault << failed;
  EXPECT_EQ(count(under(ran.out, "NOT JUDGED"), "\n  coplanarity "), 1);
}

TEST(Check, ClearsTheOtherDemosAndFindsEveryMistakeOfTheSpoiledOne) {
  for (const char* layout : {"layouts/marten_ridge.toml", "layouts/sable_weir.toml", "layouts/larch_spur.toml"}) {
    const Ran ran = run(std::string("check ") + layout);
    EXPECT_EQ(ran.status, 0) << ran.out;
    EXPECT_NE(first_line(ran.out).find("1 waived (hands-at-trolley L1)"), std::string::npos) << first_line(ran.out);
  }
  const Ran ran = run("check layouts/marten_ridge_spoiled.toml");
  EXPECT_EQ(ran.status, 1);
  const std::string failed = under(ran.out, "FAIL");
  for (const char* fault :
       {"fleet-angle ", "lead-angle ", "across-offset ", "block-run ", "rider-lines ", "under-redirect ",
        "anchor-utilisation ", "strength ", "certificate-date ", "backup-brake "})
    EXPECT_GE(count(failed, std::string("\n  ") + fault), 1) << fault << failed;
  EXPECT_EQ(count(under(ran.out, "NOT JUDGED"), "\n  coplanarity "), 1) << "the dropped limit";
}

TEST(Check, FindsEachMistakeInMountsMembersAndSizesOfTheSpoiledSpur) {
  const Ran ran = run("check layouts/larch_spur_spoiled.toml");
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(first_line(ran.out), "NOT CLEARED: 12 fail");
  const std::string failed = under(ran.out, "FAIL");
  for (const char* fault :
       {"efficiency            brake trolley: the sheaves leave 0.868 ", "anchor-utilisation    anchor P0: 34.6 kN ",
        "anchor-utilisation    anchor A6: 9.00 kN ", "member-utilisation    member S1: pulled with 12.3 kN ",
        "member-utilisation    member S2: pulled with 12.3 kN ",
        "member-lost           member G3: without it the most used is member G2, ",
        "load-direction        anchor B1: pulled 43.57 deg off its cone's axis ",
        "base-moment           anchor B1: 535.2 N m ",
        "anchor-movement       anchor A3: it moves up to 37.7 mm along, ",
        "clips                 main line: its from_end, of rope of 16.0 mm; 3 of 4 clips",
        "sheave-ratio          sheave R1: 66.0 mm at the bottom of its groove over a line of 4.0 mm:",
        "rider-structure       structure branch: the rider's reach comes within 0.0 mm "})
    EXPECT_EQ(count(failed, std::string("\n  ") + fault), 1) << fault << failed;
}

TEST(Check, ARedirectThatIsNotUpstreamFailsInThoseWords) {
  const Ran downstream = run(std::string("check ") + good + "--set 'sheave.R1.position=[1350.8, 913.1, 331.4]'");
  EXPECT_EQ(downstream.status, 1);
  EXPECT_NE(under(downstream.out, "FAIL").find("stands downstream of the rest mark"), std::string::npos)
      << downstream.out;
  const Ran reduced = run("check layouts/marten_ridge_downstream.toml");
  EXPECT_EQ(reduced.status, 1);
  EXPECT_NE(under(reduced.out, "FAIL").find("stands downstream of the rest mark"), std::string::npos) << reduced.out;
  const Ran above = run(std::string("check ") + good + "--set 'sheave.R1.position=[1350.4, 912.8, 331.4]'");
  EXPECT_EQ(above.status, 1);
  EXPECT_NE(under(above.out, "FAIL").find("stands straight above the rest mark"), std::string::npos) << above.out;
}

TEST(Check, ACertificateIsJudgedAtTheGivenDay) {
  EXPECT_EQ(run(std::string("check ") + good + "--date 2027-04-30").status, 0);
  const Ran late = run(std::string("check ") + good + "--date 2027-05-01");
  EXPECT_EQ(late.status, 1);
  EXPECT_EQ(first_line(late.out), "NOT CLEARED: 1 fail");
}

TEST(Check, WithoutAnyDateTheCertificateIsNotJudged) {
  std::string text = read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml");
  const std::string date = "date = 2026-10-30\ncreator";
  ASSERT_NE(text.find(date), std::string::npos);
  text.replace(text.find(date), date.size(), "creator");
  const Scratch scratch;
  write_file(scratch / "undated.toml", text);
  const Ran ran = run("check " + scratch / "undated.toml");
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(first_line(ran.out), "NOT CLEARED: 1 fail, 1 not judged") << "nor does any waiver count without a day";
}

TEST(Check, AWaiverLetsAFindingPassUntilItsLastDay) {
  const Scratch scratch;
  write_file(scratch / "waived.toml", read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml") +
                                          "\n[[waiver]]\ncheck = \"certificate-date\"\nwho = \"T. Lindqvist\"\n"
                                          "why = \"recertification booked\"\nuntil = 2027-05-31\n");
  const Ran waived = run("check " + scratch / "waived.toml --date 2027-05-31");
  EXPECT_EQ(waived.status, 0) << waived.out;
  EXPECT_NE(waived.out.find("T. Lindqvist"), std::string::npos) << "a waiver is printed with who and why";
  EXPECT_NE(waived.out.find("recertification booked"), std::string::npos);
  EXPECT_EQ(run("check " + scratch / "waived.toml --date 2027-06-01").status, 1);
}

TEST(Check, AWaiverOfACheckThatDoesNotExistIsRefused) {
  const Scratch scratch;
  write_file(scratch / "waived.toml",
             read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml") +
                 "\n[[waiver]]\ncheck = \"fleet-angel\"\nwho = \"a\"\nwhy = \"b\"\nuntil = 2027-05-31\n");
  const Ran ran = run("check " + scratch / "waived.toml");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("error: waiver: no check is named \"fleet-angel\""), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("write \"fleet-angle\""), std::string::npos) << ran.err;
}

TEST(Check, AMisspeltLayoutPrintsItsErrorsAndNoFindings) {
  const Scratch scratch;
  std::string text = read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml");
  text.replace(text.find("wll = \"45 kN\""), 13, "wll = \"45 ton\"");
  text.replace(text.find("axle ="), 6, "axel =");
  write_file(scratch / "misspelt.toml", text);
  const Ran ran = run("check " + scratch / "misspelt.toml");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("\"ton\" may mean 1000 kg, 2000 lb or 2240 lb"), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("axel"), std::string::npos) << "all errors at once";
}

TEST(Check, TheJsonIsTheSameEveryTimeOnAnyNumberOfThreads) {
  const Ran one = run(std::string("check --format json --threads 1 ") + good);
  EXPECT_EQ(one.status, 0);
  EXPECT_GT(one.out.size(), 1000u);
  EXPECT_EQ(run(std::string("check --format json --threads 2 ") + good).out, one.out);
  EXPECT_EQ(run(std::string("check --format json --threads 1 ") + good).out, one.out);
}

TEST(Check, AFullDiskIsSaidAndNotTakenForSuccess) {
  const Ran ran = run(std::string("check ") + good, "/dev/full");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.err, "error: standard output could not be written\n");
}

}  // namespace
}  // namespace fairlead::cli_test

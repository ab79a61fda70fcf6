#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

const std::string demo =
    "asbuilt layouts/heron_gully.toml layouts/heron_gully_as_built.csv layouts/heron_gully_measured.csv --order pnezd "
    "--unit m --uncertainty '2 mm' --control P1,P2,B1,unit ";

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST(Asbuilt, TellsTheVerdictHowFarMarksAreOffAndWhatTheDrawsMade) {
  const Ran ran = run(demo);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, 1);
  EXPECT_TRUE(ran.out.starts_with("NOT CLEARED: ")) << first_line(ran.out);
  std::size_t at = 0;
  for (const char* title : {"\nAS BUILT\n", "\nControl points\n", "\nMarks as built\n", "\nMeasured besides\n",
                            "\nPASS\n", "\nFindings over the draws\n", "\nCautions\n"}) {
    const std::size_t next = ran.out.find(title, at);
    ASSERT_NE(next, std::string::npos) << title << ran.out;
    at = next;
  }
  EXPECT_EQ(ran.out.find("Not measured, and what rests on it"), std::string::npos);
  expect_narrow(ran.out);
}

TEST(Asbuilt, WithoutMeasurementsItSaysWhatToMeasure) {
  const Ran ran = run(
      "asbuilt layouts/heron_gully.toml layouts/heron_gully_as_built.csv --order pnezd --unit m --uncertainty '2 mm' "
      "--control P1,P2,B1,unit --draws 59 --hold-arrest");
  EXPECT_EQ(ran.status, 1) << ran.err;
  const std::size_t table = ran.out.find("\nNot measured, and what rests on it\n");
  ASSERT_NE(table, std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("bearing and tilt of R1", table), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("tension and temperature of", table), std::string::npos) << ran.out;
}

TEST(Asbuilt, WritesWhatItWouldPrintTheSameOnAnyNumberOfThreads) {
  const Scratch scratch;
  const std::string quick = demo + "--draws 59 --hold-arrest ", file = scratch / "built.json";
  const Ran printed = run(quick + "--format json --threads 1"), written = run(quick + "--threads 2 -o " + file);
  EXPECT_EQ(written.out, first_line(run(quick).out) + "\n" + file + " written\n") << written.err;
  EXPECT_EQ(read_file(file), printed.out);
  EXPECT_GT(printed.out.size(), 1000u);
  // As sha256sum has them.
  for (const char* key :
       {"\"points_sha256\": \"007df1014c601a18121097bdfe59dbd8152a05ab866d1d8ef04df41303dd855e\"",
        "\"measurements_sha256\": \"34f51eec9e3c685098c9bd2b31bf898a51d497cd07edc94741b8f2e1ce85059e\""})
    EXPECT_NE(printed.out.find(key), std::string::npos) << key;
}

// Ten thousand draws in the time of 200.
TEST(Asbuilt, TellsMostOfTenThousandDrawsStraightTheSameOnAnyNumberOfThreads) {
  const std::string many = demo + "--draws 10000 --hold-arrest --linear ";
  const Ran one = run(many + "--format json --threads 1"), two = run(many + "--format json --threads 2");
  EXPECT_EQ(one.out, two.out);
  EXPECT_NE(one.out.find("\"linear\": true"), std::string::npos);
  EXPECT_NE(one.out.find("\"draws\": 10000,\n"), std::string::npos);
  const Ran text = run(many);
  EXPECT_NE(text.out.find("100 draws were judged exactly and 9900 told straight"), std::string::npos) << text.out;
}

TEST(Asbuilt, EveryErrorOfEveryFileIsToldAtOnceAndNothingIsWritten) {
  const Scratch scratch;
  const std::string points = scratch / "points.csv", tapes = scratch / "tapes.csv", out = scratch / "built.txt";
  write_file(points, "P1,1,2\n");
  write_file(tapes, "item,quantity,value,unit,uncertainty\nR1,tilt,1,deg,0\n");
  const Ran ran = run("asbuilt layouts/heron_gully.toml " + points + " " + tapes +
                      " --order pnezd --unit m --uncertainty 3mm -o " + out);
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err,
            points +
                ":1:1: error: the line has 3 columns, and the order \"pnezd\" has five, or four without descriptions\n"
                "    1 |   P1,1,2\n"
                "      |   ^^^^^^ separate the columns by commas, and write decimals with a point\n" +
                tapes +
                ":2:15: error: the uncertainty is not above 0\n"
                "    2 |   R1,tilt,1,deg,0\n"
                "      |                 ^ write one standard uncertainty, in the unit of the value\n");
  EXPECT_FALSE(exists(out));
}

TEST(Asbuilt, WhatCanNotBeUsedIsRefusedWithWhatToWrite) {
  const std::string plain = "asbuilt layouts/heron_gully.toml layouts/heron_gully_as_built.csv --order pnezd --unit m ";
  const Ran frame = run(plain + "--uncertainty 3mm");
  EXPECT_EQ(frame.status, 2);
  EXPECT_EQ(frame.err,
            "layouts/heron_gully_as_built.csv: error: every point is more than 10 m off where the layout has it; name "
            "control points with --control, to which the points are fitted\n");
  const Ran sure = run(plain + "--uncertainty 0mm");
  EXPECT_EQ(sure.status, 2);
  EXPECT_EQ(
      sure.err,
      "error: --uncertainty 0mm: nothing is measured without one: state a length above 0, for example \"3 mm\"\n");
  const Ran feet =
      run("asbuilt layouts/heron_gully.toml layouts/heron_gully_as_built.csv --order pnezd --unit ft --uncertainty 2mm "
          "--control P1,P2,B1,unit");
  EXPECT_EQ(feet.status, 2);
  EXPECT_NE(feet.err.find("metres, taken for feet"), std::string::npos) << feet.err;
  const Ran none = run("asbuilt layouts/heron_gully.toml missing.csv --order pnezd --unit m --uncertainty 2mm");
  EXPECT_EQ(none.status, 2);
  EXPECT_EQ(none.err, "missing.csv: error: there is no such file\n");
}

TEST(Asbuilt, OfManyPointsThatTheLayoutDoesNotKnowTheFirstAreNamedAndTheRestCounted) {
  const Scratch scratch;
  std::string points = "P1,800,1200,341.5\nP2,932,1376,330.5\n";
  for (int i = 1; i <= 3000; ++i) points += "G" + std::to_string(i) + ",0,0,0\n";
  write_file(scratch / "points.csv", points);
  const Ran ran = run("asbuilt layouts/heron_gully.toml " + (scratch / "points.csv") +
                      " --order pnezd --unit m --uncertainty 2mm --draws 59 --hold-arrest");
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_NE(ran.out.find("Points that the layout does not know: G1, G2,"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("and 2976"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("points.csv, 3002 points\n"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("G25"), std::string::npos);
}

TEST(Asbuilt, TellsWhatMovedSinceAnEarlierSurveyAndTapesWithIt) {
  const Scratch scratch;
  std::string before = read_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully_as_built.csv");
  const std::string was = "343.9987", is = "343.9487";
  before.replace(before.find(was), was.size(), is);
  write_file(scratch / "before.csv", before);
  const Ran ran = run(demo + "--draws 59 --hold-arrest --since " + (scratch / "before.csv"));
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_NE(ran.out.find("\nMoved since the earlier survey\n"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("\ncompared with: " + (scratch / "before.csv") + ", 7 points\n"), std::string::npos)
      << ran.out;
  EXPECT_NE(ran.out.find("not shown to"), std::string::npos) << ran.out;
  expect_narrow(ran.out);
  const Ran less = run(demo + "--since-uncertainty 3mm");
  EXPECT_EQ(less.status, 2);
  EXPECT_NE(less.err.find("--since"), std::string::npos) << less.err;
  const Ran none = run(demo + "--since missing.csv --since-uncertainty 0mm");
  EXPECT_EQ(none.status, 2);
  EXPECT_NE(none.err.find("--since-uncertainty 0mm"), std::string::npos) << none.err;
  const Ran lost = run(demo + "--since missing.csv");
  EXPECT_EQ(lost.status, 2);
  EXPECT_EQ(lost.err, "missing.csv: error: there is no such file\n");
}

TEST(Asbuilt, AdjustsTapesAndNamesWhatTheyDoNotPlace) {
  const Scratch scratch;
  write_file(scratch / "tapes.csv",
             "item,quantity,value,unit,uncertainty\nP1 to A3,distance,185.26,m,0.01\nP2 to R1,rise,0.9,m,0.01\n"
             "main_line,diameter,13.7,mm,0.03\n");
  const std::string plain =
      "asbuilt layouts/heron_gully.toml layouts/heron_gully_as_built.csv " + (scratch / "tapes.csv") +
      " --order pnezd --unit m --uncertainty '2 mm' --control P1,P2,B1,unit --draws 59 --hold-arrest";
  const Ran ran = run(plain);
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_NE(ran.out.find("\nTapes and rises, adjusted\n"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("rise P2 to R1"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("Diameters are judged by fairlead records"), std::string::npos) << ran.out;
  expect_narrow(ran.out);
  write_file(scratch / "tapes.csv",
             "item,quantity,value,unit,uncertainty\nP1,distance,18,m,0.01\nP1 to A33,rise,1,m,1\n");
  const Ran bad = run(plain);
  EXPECT_EQ(bad.status, 2);
  EXPECT_EQ(bad.out, "");
  EXPECT_EQ(bad.err, (scratch / "tapes.csv") +
                         ":2:1: error: a distance is read from one mark to another, and the item names one\n"
                         "    2 |   P1,distance,18,m,0.01\n"
                         "      |   ^^ write both like \"P1 to A3\"\n" +
                         (scratch / "tapes.csv") +
                         ":3:1: error: there is no mark or peg \"A33\"\n"
                         "    3 |   P1 to A33,rise,1,m,1\n"
                         "      |   ^^^^^^^^^ did you mean \"A3\"?\n");
}

TEST(Asbuilt, DrawsItsSheetsTheSameEveryTimeAndRefusesAFontThatIsNotThere) {
  const Scratch scratch;
  const std::string quick = demo + "--draws 59 --hold-arrest ";
  for (const char* name : {"a.pdf", "b.pdf"}) {
    const Ran ran = run(quick + "-o " + (scratch / name));
    EXPECT_EQ(ran.status, 1) << ran.err;
  }
  const std::string pdf = read_file(scratch / "a.pdf");
  EXPECT_EQ(pdf.substr(0, 5), "%PDF-");
  EXPECT_TRUE(pdf == read_file(scratch / "b.pdf"));
  run(quick + "--decimal comma -o " + (scratch / "comma.pdf"));
  EXPECT_FALSE(pdf == read_file(scratch / "comma.pdf")) << "the decimal marker was asked for";
  const Ran font = run(quick + "--font /no/such/font.ttf -o " + (scratch / "c.pdf"));
  EXPECT_EQ(font.status, 2);
  EXPECT_FALSE(exists(scratch / "c.pdf"));
}

TEST(Asbuilt, FewerDrawsThanShowAnythingAreRefused) {
  const Ran ran = run(demo + "--draws 10");
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("--draws"), std::string::npos) << ran.err;
}

const std::string tapes_alone =
    "asbuilt layouts/sable_weir.toml --measurements layouts/sable_weir_taped.csv --control P1,PEG1,PEG2,PEG3,PEG4 "
    "--draws 59 --hold-arrest ";

TEST(Asbuilt, OfTapesAloneItSaysWhatIsHeldAsDrawnAndWhatRestsOnIt) {
  const Ran ran = run(tapes_alone);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.status, 1);
  EXPECT_NE(ran.out.find("\nnot measured, held as drawn: P1, PEG1, PEG2, PEG3, PEG4\n"), std::string::npos) << ran.out;
  std::size_t at = 0;
  for (const char* title : {"\nAS BUILT\n", "\nControl marks, held as drawn\n", "\nTapes and rises, adjusted\n",
                            "\nMarks as built\n", "\nNot measured, and what rests on it\n"}) {
    const std::size_t next = ran.out.find(title, at);
    ASSERT_NE(next, std::string::npos) << title << ran.out;
    at = next;
  }
  EXPECT_NE(ran.out.find("\nP1    no, held as drawn  nothing shows it\n"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("not measured, held as drawn\nA3 "), std::string::npos) << ran.out;
  EXPECT_EQ(ran.out.find("Not in the points file"), std::string::npos) << ran.out;
  expect_narrow(ran.out);
  const Ran json = run(tapes_alone + "--format json");
  EXPECT_NE(json.out.find("\"points_file\": null"), std::string::npos);
  EXPECT_NE(json.out.find("\"held\": [\"P1\",\"PEG1\",\"PEG2\",\"PEG3\",\"PEG4\"]"), std::string::npos)
      << json.out.substr(0, 1500);
}

TEST(Asbuilt, TapesAloneNeedMeasurementsAndControlAndNothingOfAPointsFile) {
  const Ran nothing = run("asbuilt layouts/sable_weir.toml");
  EXPECT_EQ(nothing.status, 2);
  EXPECT_EQ(
      nothing.err,
      "error: nothing was measured: name a points file, or of tapes alone --measurements FILE\n"
      "error: tapes alone count from marks that did not move: name three or more, not in one line, like --control "
      "P1,P2,B1\n");
  const Ran both = run(tapes_alone + "--order pnezd --unit m --uncertainty 3mm --since x.csv --tilted");
  EXPECT_EQ(both.status, 2);
  std::string each;
  for (const char* option : {"--order", "--unit", "--uncertainty", "--since", "--tilted"})
    each += std::string("error: ") + option + " is of a points file, and none is named\n";
  EXPECT_EQ(both.err, each);
  const Ran taken = run("asbuilt layouts/sable_weir.toml layouts/sable_weir_taped.csv --control PEG1,PEG2,PEG3");
  EXPECT_EQ(taken.status, 2);
  EXPECT_EQ(taken.err,
            "error: layouts/sable_weir_taped.csv is taken for a points file, which needs --order, --unit and "
            "--uncertainty; of tapes alone write --measurements layouts/sable_weir_taped.csv --control and the marks "
            "that did not move\n");
  const Ran two =
      run("asbuilt layouts/sable_weir.toml --measurements layouts/sable_weir_taped.csv --control PEG1,PEG9");
  EXPECT_EQ(two.status, 2);
  EXPECT_EQ(two.err,
            "layouts/sable_weir_taped.csv: error: --control: there is no mark or peg \"PEG9\"; did you mean "
            "\"PEG1\"?\n");
}

}  // namespace
}  // namespace fairlead::cli_test

// Sheets in another language, as a user asks for them.
#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* draw = "draw layouts/heron_gully.toml ";

TEST(Labels, TheShippedGermanFileLettersTheSet) {
  const Scratch scratch;
  const Ran ran = run(std::string(draw) + "--labels layouts/labels_de.toml -o " + scratch / "set.svg");
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  const std::string svg = read_file(scratch / "set.svg");
  for (const char* text : {">NICHT ZUR AUSFÜHRUNG<", ">WARNHINWEISE<", ">ANSICHT<", ">Polster sind keine Bremse.<",
                           ">SEILLISTE<", ">de<", ">Translated labels: the English governs<"})
    EXPECT_GT(count(svg, text), 0) << text;
  for (const char* text : {">NOT FOR CONSTRUCTION<", ">CAUTIONS<", ">ELEVATION<", ">en<"})
    EXPECT_EQ(count(svg, text), 0) << text;
}

TEST(Labels, TheCrewsSheetsInspectionFormsAndAsBuiltSheetsSpeakGermanToo) {
  const Scratch scratch;
  for (const char* command :
       {"setout layouts/heron_gully.toml", "records layouts/heron_gully.toml layouts/heron_gully_register.csv",
        "asbuilt layouts/heron_gully.toml layouts/heron_gully_as_built.csv --order pnezd --unit m --uncertainty 2mm "
        "--control P1,P2,B1,unit --hold-arrest --draws 59"}) {
    const Ran ran = run(std::string(command) + " --labels layouts/labels_de.toml -o " + scratch / "x.pdf");
    EXPECT_LT(ran.status, 2) << command;
    EXPECT_EQ(ran.err, "") << command;
    const Ran english = run(std::string(command) + " -o " + scratch / "en.pdf");
    EXPECT_EQ(english.status, ran.status) << command;
    EXPECT_NE(read_file(scratch / "x.pdf"), read_file(scratch / "en.pdf")) << command;
  }
}

TEST(Labels, WithoutPairsNothingChangesButIsTold) {
  const Scratch scratch;
  write_file(scratch / "en.toml", "language = \"en\"\n");
  const Ran plain = run(std::string(draw) + "-o " + scratch / "a.pdf");
  const Ran with = run(std::string(draw) + "--labels " + scratch / "en.toml" + " -o " + scratch / "b.pdf");
  EXPECT_EQ(plain.status, 0);
  EXPECT_EQ(plain.err, "");
  EXPECT_EQ(with.status, 0);
  EXPECT_EQ(read_file(scratch / "a.pdf"), read_file(scratch / "b.pdf"));
  EXPECT_NE(with.err.find("stay English; add them under [labels]:\n  \"Legal owner\"\n"), std::string::npos)
      << with.err;
}

TEST(Labels, OneLabelWithoutAPairIsToldByName) {
  const Scratch scratch;
  std::string german = read_file(FAIRLEAD_SOURCE_DIR "/layouts/labels_de.toml");
  const std::size_t at = german.find("\"LEGEND\" = ");
  ASSERT_NE(at, std::string::npos);
  german.erase(at, german.find('\n', at) - at);
  write_file(scratch / "de.toml", german);
  const Ran ran = run(std::string(draw) + "--labels " + scratch / "de.toml" + " -o " + scratch / "set.svg");
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "note: 1 label of these sheets has no pair in " + scratch / "de.toml" +
                         " and stays English; add it under [labels]:\n  \"LEGEND\"\n");
  EXPECT_EQ(count(read_file(scratch / "set.svg"), ">LEGEND<"), 1);
}

TEST(Labels, AFileThatIsWrongIsRefusedWithAllItsErrorsAndNothingIsWritten) {
  const Scratch scratch;
  const std::string file = scratch / "bad.toml";
  write_file(file,
             "language = \"de\"\n\"Scael\" = \"Maßstab\"\n\"{1} pass\" = \"bestanden\"\n\"Scale\" = \"\u4E2D\"\n");
  const Ran ran = run(std::string(draw) + "--labels " + file + " -o " + scratch / "set.pdf");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, file +
                         ":2:1: error: no fixed text of the sheets reads so\n"
                         "    2 |   \"Scael\" = \"Maßstab\"\n"
                         "      |   ^^^^^^^ did you mean \"Scale\"?\n" +
                         file +
                         ":3:14: error: {1} is lost, and what is put in there with it\n"
                         "    3 |   \"{1} pass\" = \"bestanden\"\n"
                         "      |                ^^^^^^^^^^^ write {1} where it belongs\n" +
                         file +
                         ":4:11: error: the font has no U+4E2D\n"
                         "    4 |   \"Scale\" = \"\u4E2D\"\n"
                         "      |             ^^^ write it otherwise, or take another --font\n");
  EXPECT_EQ(scratch.files(), 1);
}

TEST(Labels, AFileThatIsNotThereIsRefused) {
  const Scratch scratch;
  const Ran ran = run(std::string(draw) + "--labels " + scratch / "no.toml" + " -o " + scratch / "set.pdf");
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("no.toml"), std::string::npos);
  EXPECT_EQ(scratch.files(), 0);
}

TEST(Labels, AFileToStartFromIsWrittenAndNotOverAnother) {
  const Scratch scratch;
  const Ran printed = run("new --labels"), written = run("new --labels -o " + scratch / "xx.toml");
  EXPECT_EQ(printed.status, 0);
  EXPECT_EQ(written.status, 0);
  EXPECT_EQ(read_file(scratch / "xx.toml"), printed.out);
  EXPECT_EQ(count(printed.out, "\n\"Scale\" = \"\"\n"), 1);
  EXPECT_EQ(run("new --labels -o " + scratch / "xx.toml").status, 2);
  EXPECT_EQ(run("new --labels --concept").status, 2);
}

}  // namespace
}  // namespace fairlead::cli_test

#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* good = "layouts/heron_gully.toml ";

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST(ArrestCommand, PrintsTheVerdictThenTheArrestsFindingsAndTables) {
  const Ran ran = run(std::string("arrest ") + good), checked = run(std::string("check ") + good);
  EXPECT_EQ(ran.status, checked.status) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(first_line(ran.out), first_line(checked.out));
  std::size_t at = 0;
  for (const char* title :
       {"\nARREST: predicted, untested\n", "\n  rider-stops", "\nWhat governs the arrest: predicted, untested\n",
        "\nArrivals: predicted, untested\n",
        "\nBackup brake alone, and a trolley not at its mark: predicted, untested\n",
        "\nWay back of the empty trolley: predicted, untested\n", "\nCorners of the arrest: predicted, untested\n",
        "\nTaken for granted\n", "\nNot looked at by this version\n", "\nCautions\n"}) {
    const std::size_t next = ran.out.find(title, at);
    ASSERT_NE(next, std::string::npos) << title << ran.out;
    at = next;
  }
  EXPECT_EQ(ran.out.find("\n  fleet-angle"), std::string::npos) << "another check's finding";
}

TEST(ArrestCommand, NoLineIsWiderThanATerminal) {
  for (const char* units : {"si", "us", "both"})
    expect_narrow(run(std::string("arrest ") + good + "--units " + units).out);
}

TEST(ArrestCommand, OfALayoutThatGivesNoRollingResistanceSaysWhatIsMissingAndReturnsOne) {
  const Scratch scratch;
  std::string layout = read_file(std::string(FAIRLEAD_SOURCE_DIR) + "/layouts/heron_gully.toml");
  const std::size_t key = layout.find("rolling_resistance");
  ASSERT_NE(key, std::string::npos);
  layout.erase(key, layout.find('\n', key) + 1 - key);
  const std::size_t section = layout.find("[approach]");
  if (section != std::string::npos) layout.erase(section, layout.find("\n\n", section) - section);
  if (layout.find("arrival_speed") == std::string::npos)
    layout.insert(layout.find("[riders]") + 9, "arrival_speed = [\"5 m/s\", \"7 m/s\"]\n");
  write_file(scratch / "site.toml", layout);
  const Ran ran = run("arrest " + scratch / "site.toml");
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_TRUE(ran.out.starts_with("NOT CLEARED: ")) << ran.out;
  EXPECT_NE(ran.out.find("\nWhat governs the arrest: predicted, untested\n"
                         "  Undetermined: the approach is not solved: the layout does not give "
                         "riders.rolling_resistance\n"),
            std::string::npos)
      << ran.out;
  EXPECT_NE(ran.out.find("\nUNDETERMINED\n"), std::string::npos);
}

TEST(ArrestCommand, WritesWhatItWouldPrint) {
  const Scratch scratch;
  for (const std::string format : {"text", "json"}) {
    const std::string file = scratch / ("site." + (format == "text" ? "txt" : format));
    const Ran printed = run("arrest --format " + format + " " + good),
              written = run("arrest " + (good + ("-o " + file)));
    EXPECT_EQ(written.err, "");
    EXPECT_EQ(written.status, printed.status);
    EXPECT_TRUE(written.out.ends_with("\n" + file + " written\n")) << written.out;
    EXPECT_EQ(read_file(file), printed.out) << format;
    EXPECT_GT(printed.out.size(), 1000u);
  }
}

TEST(ArrestCommand, TheJsonIsThatOfCheckOnAnyNumberOfThreads) {
  const std::string one = run(std::string("arrest --format json --threads 1 ") + good).out;
  EXPECT_EQ(run(std::string("arrest --format json --threads 2 ") + good).out, one);
  EXPECT_EQ(run(std::string("check --format json ") + good).out, one);
  EXPECT_NE(one.find("\"arrest\": {"), std::string::npos);
}

TEST(ArrestCommand, AFileOfAnotherKindIsRefusedBeforeAnythingIsComputed) {
  const Scratch scratch;
  const Ran ran = run(std::string("arrest ") + good + "-o " + scratch / "site.pdf");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, "error: -o " + scratch / "site.pdf" + ": end the file's name in .json or .txt\n");
  const Ran both = run(std::string("arrest --format text ") + good + "-o " + scratch / "site.json");
  EXPECT_EQ(both.status, 2);
  EXPECT_EQ(both.err, "error: -o " + scratch / "site.json" + ": --format text is another format: leave --format out\n");
  EXPECT_EQ(scratch.files(), 0);
}

TEST(ArrestCommand, AMisspeltOptionIsGuessed) {
  const Ran ran = run(std::string("arrest --formt json ") + good);
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("did you mean --format?"), std::string::npos) << ran.err;
}

TEST(ArrestCommand, ALayoutThatCannotBeReadGivesItsErrorsAndNoFile) {
  const Scratch scratch;
  const Ran ran = run("arrest tests/bad_layouts/arrest.toml -o " + scratch / "site.txt");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("tests/bad_layouts/arrest.toml:"), std::string::npos) << ran.err;
  EXPECT_EQ(scratch.files(), 0);
}

TEST(ArrestCommand, AChangeTriedOnTheCommandLineIsSolved) {
  const Ran was = run(std::string("arrest ") + good),
            is = run(std::string("arrest ") + good + "--set riders.drag_area='\"0.2 m2\"'");
  EXPECT_EQ(is.err, "");
  EXPECT_NE(is.out, was.out);
}

}  // namespace
}  // namespace fairlead::cli_test

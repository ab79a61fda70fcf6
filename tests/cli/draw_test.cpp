// The drawing in every format the program writes: by the name of its file, or all of them into a folder.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <set>

#include "tests/cli/program.hpp"

namespace fairlead::cli_test {
namespace {

constexpr const char* good = "layouts/heron_gully.toml ";

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

std::set<std::string> names_in(const std::string& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) names.insert(entry.path().filename());
  return names;
}

TEST(DrawFormats, TheNameOfTheFileSaysWhich) {
  const Scratch scratch;
  for (const auto& [name, begins] : {std::pair{"a.pdf", "%PDF-"},
                                     {"a.svg", "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg "},
                                     {"a.dxf", "999\r\nHG-L2-ARR Line 2, arrest end 1:1\r\n"}}) {
    const Ran ran = run(std::string("draw ") + good + "-o " + scratch / name);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(ran.out, first_line(run(std::string("check ") + good).out) + "\n" + scratch / name + " written\n");
    EXPECT_TRUE(read_file(scratch / name).starts_with(begins)) << name;
  }
  EXPECT_EQ(scratch.files(), 3);
}

/// The bad ones too: what is not solved is told on the sheets.
TEST(DrawFormats, EveryShippedLayoutIsDrawnAndSetOut) {
  const Scratch scratch;
  int layouts = 0;
  for (const auto& entry : std::filesystem::directory_iterator(FAIRLEAD_SOURCE_DIR "/layouts")) {
    const std::string file = entry.path().string();
    if (!file.ends_with(".toml") || file.ends_with("_concept.toml") || file.ends_with("_de.toml")) continue;
    const Ran drawn = run("draw '" + file + "' -o " + scratch / "set.pdf"), set_out = run("setout '" + file + "'");
    EXPECT_TRUE(drawn.status == 0 || drawn.status == 1) << file << ": " << drawn.status << drawn.err;
    EXPECT_TRUE(read_file(scratch / "set.pdf").starts_with("%PDF-")) << file;
    EXPECT_TRUE(set_out.status == 0 || set_out.status == 1) << file << ": " << set_out.status << set_out.err;
    ++layouts;
  }
  EXPECT_GE(layouts, 8);
}

TEST(DrawFormats, TheFolderALayoutIsReadFromDoesNotShow) {
  const Scratch scratch;
  std::filesystem::copy_file(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml", scratch / "heron_gully.toml");
  run("draw " + scratch / "heron_gully.toml" + " -o " + scratch / "there.pdf");
  run(std::string("draw ") + good + "-o " + scratch / "here.pdf");
  EXPECT_TRUE(read_file(scratch / "here.pdf") == read_file(scratch / "there.pdf"));
  EXPECT_TRUE(read_file(scratch / "here.pdf").starts_with("%PDF-"));
}

TEST(DrawFormats, AnyOtherNameIsRefusedBeforeTheWork) {
  const Scratch scratch;
  const Ran ran = run(std::string("draw ") + good + "-o " + scratch / "set.doc");
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err,
            "error: -o " + scratch / "set.doc" + ": end the file's name in .pdf, .svg, .dxf or / (a folder)\n");
  EXPECT_EQ(scratch.files(), 0);
}

TEST(DrawFormats, AFolderGetsEverySheetAndEveryTable) {
  const Scratch scratch;
  const Ran ran = run(std::string("draw ") + good + "-o " + scratch / "set/");
  EXPECT_EQ(ran.status, 0) << ran.err;
  const auto names = names_in(scratch / "set");
  EXPECT_EQ(ran.out, first_line(run(std::string("check ") + good).out) + "\n" + scratch / "set/" + " written, " +
                         std::to_string(names.size()) + " files\n");
  for (const char* name : {"set.pdf", "01_general_arrangement_of_the_arrest_end.svg", "07_setting_out.dxf",
                           "02_section_and_isometric_of_the_arrest_end.dxf", "11_main_line.svg", "anchor_loads.csv",
                           "tables.csv", "calculation_predicted_untested.csv"})
    EXPECT_TRUE(names.contains(name)) << name;
  int svg = 0, dxf = 0;
  for (const std::string& name : names) svg += name.ends_with(".svg"), dxf += name.ends_with(".dxf");
  const std::string set = read_file(scratch / "set/01_general_arrangement_of_the_arrest_end.svg");
  EXPECT_NE(set.find(">1 / " + std::to_string(svg) + "</text>"), std::string::npos) << "as many sheets as it says";
  EXPECT_EQ(svg, dxf);
  const std::string index = read_file(scratch / "set/tables.csv");
  for (const std::string& name : names)
    if (name.ends_with(".csv") && name != "tables.csv") {
      EXPECT_NE(index.find("\n" + name + ","), std::string::npos) << name;
    }
  EXPECT_NE(index.find("\n,Status,NOT FOR CONSTRUCTION\r\n"), std::string::npos) << index;
}

TEST(DrawFormats, AFolderIsTheSameOnAnyNumberOfThreads) {
  const Scratch scratch;
  for (const char* threads : {"1", "3"})
    EXPECT_EQ(run(std::string("draw ") + good + "--threads " + threads + " -o " + scratch / threads + "/").status, 0);
  const auto names = names_in(scratch / "1");
  EXPECT_EQ(names_in(scratch / "3"), names);
  for (const std::string& name : names)
    EXPECT_TRUE(read_file(scratch / "1/" + name) == read_file(scratch / "3/" + name)) << name;
}

TEST(DrawFormats, AFolderThatHoldsAnythingIsRefusedAndLeftAlone) {
  const Scratch scratch;
  std::filesystem::create_directory(scratch / "set");
  write_file(scratch / "set/19_old.svg", "yesterday's");
  for (const char* name : {"set", "set/"}) {
    const Ran ran = run(std::string("draw ") + good + "-o " + scratch / name);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err, "error: " + scratch / name +
                           ": holds files already; name a new folder, or sheets of an earlier drawing may stand among "
                           "these\n");
  }
  EXPECT_EQ(names_in(scratch / "set"), std::set<std::string>{"19_old.svg"});
  EXPECT_EQ(scratch.files(), 1);
}

TEST(DrawFormats, WhereADiskTakesNoMoreThereIsNoFolder) {
  const Scratch scratch;
  // No file longer than 64 blocks of 512 bytes: some of the set fit, some do not.
  const std::string shell = std::string("cd '") + FAIRLEAD_SOURCE_DIR + "' && trap '' XFSZ && ulimit -f 64 && '" +
                            FAIRLEAD_PROGRAM + "' draw layouts/heron_gully.toml -o '" + scratch / "set/" +
                            "' >/dev/null 2>'" + scratch / "err" + "'";
  const int status = std::system(shell.c_str());
  EXPECT_EQ(WEXITSTATUS(status), 2);
  EXPECT_NE(read_file(scratch / "err").find("cannot be written: File too large"), std::string::npos)
      << read_file(scratch / "err");
  EXPECT_EQ(scratch.files(), 1) << "the message alone";
}

TEST(DrawFormats, ARigThatIsNotClearedIsWrittenAndSaysSo) {
  const Scratch scratch;
  const Ran ran = run("draw layouts/heron_gully_spoiled.toml -o " + scratch / "set/");
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_NE(read_file(scratch / "set/tables.csv").find(",Verdict,\"NOT CLEARED: "), std::string::npos);
}

/// The sheet that an option changes, as SVG text.
std::string first_sheet(const std::string& options) {
  const Scratch scratch;
  const Ran ran = run(std::string("draw ") + good + options + " -o " + scratch / "set/");
  EXPECT_EQ(ran.status, 0) << ran.err;
  return read_file(scratch / "set/01_general_arrangement_of_the_arrest_end.svg");
}

TEST(DrawOptions, EverySizeOfPaperIsTaken) {
  for (const auto& [size, width] : {std::pair{"A3", "420mm"},
                                    {"A2", "594mm"},
                                    {"A1", "841mm"},
                                    {"A4", "210mm"},
                                    {"ANSI-A", "215.9mm"},
                                    {"ANSI-B", "431.8mm"},
                                    {"ANSI-C", "558.8mm"},
                                    {"ANSI-D", "863.6mm"}}) {
    const std::string svg = first_sheet(std::string("--size ") + size);
    EXPECT_NE(svg.find(std::string(" width=\"") + width + "\""), std::string::npos) << size;
  }
  const Ran ran = run(std::string("draw ") + good + "--size A5 -o /tmp/none.pdf");
  EXPECT_EQ(ran.status, 2);
}

TEST(DrawOptions, WhatFindsNoRoomOnASmallSheetIsToldWithTheSizesOnWhichItDoes) {
  const Scratch scratch;
  const Ran ran = run("draw layouts/marten_ridge.toml --size A4 -o " + scratch / "a.pdf");
  EXPECT_EQ(ran.err,
            "note: sheet 1: The general arrangement finds no room on A4: draw it on A3, A2, A1, ANSI B, ANSI C, ANSI "
            "D\n");
  EXPECT_TRUE(exists(scratch / "a.pdf"));
  EXPECT_EQ(run(std::string("draw ") + good + "-o " + scratch / "a.pdf").err, "");
}

TEST(DrawOptions, ProjectionScaleAndGreyAreAsAskedFor) {
  EXPECT_NE(first_sheet("").find("First-angle projection"), std::string::npos);
  EXPECT_NE(first_sheet("--projection third").find("Third-angle projection"), std::string::npos);
  EXPECT_NE(first_sheet("--size ANSI-B --projection first").find("First-angle projection"), std::string::npos);
  EXPECT_NE(first_sheet("").find(">1:200<"), std::string::npos);
  const std::string scaled = first_sheet("--scale 1:500");
  EXPECT_NE(scaled.find(">1:500<"), std::string::npos);
  EXPECT_EQ(scaled.find(">1:200<"), std::string::npos);
  EXPECT_NE(first_sheet("").find("#a60d0d"), std::string::npos) << "red";
  EXPECT_EQ(first_sheet("--grey").find("#a60d0d"), std::string::npos);
}

TEST(DrawOptions, TheDecimalMarkerIsAsAskedForInNumbersAlone) {
  EXPECT_NE(first_sheet("--decimal point").find(">29.000<"), std::string::npos);
  const std::string comma = first_sheet("--decimal comma");
  EXPECT_NE(comma.find(">29,000<"), std::string::npos);
  EXPECT_EQ(comma.find(">29.000<"), std::string::npos);
  EXPECT_NE(comma.find("fairlead " FAIRLEAD_VERSION), std::string::npos) << "a version is no number";
  EXPECT_EQ(run(std::string("draw ") + good + "--decimal dot -o /tmp/none.pdf").status, 2);
}

TEST(DrawOptions, AScaleOutsideTheSeriesOrWithoutRoomIsRefused) {
  const Scratch scratch;
  const Ran odd = run(std::string("draw ") + good + "--scale 1:75 -o " + scratch / "a.pdf");
  EXPECT_EQ(odd.status, 2);
  EXPECT_EQ(odd.err,
            "error: --scale 1:75: write one of the series of ISO 5455: 1:20, 1:50, 1:100, 1:200, 1:500, 1:1000\n");
  const Ran wide = run(std::string("draw ") + good + "--scale 1:20 -o " + scratch / "a.pdf");
  EXPECT_EQ(wide.status, 2);
  EXPECT_EQ(wide.err,
            "error: --scale 1:20: the general arrangement has no room at it; it has at 1:200, 1:500, 1:1000\n");
  EXPECT_EQ(scratch.files(), 0);
}

TEST(DrawOptions, DecimalFeetAreAskedForByName) {
  const std::string svg = first_sheet("--size ANSI-B --units us-tenths");
  EXPECT_NE(svg.find(">95.14<"), std::string::npos);
  EXPECT_NE(svg.find("decimal feet, ft (tenths)"), std::string::npos);
}

}  // namespace
}  // namespace fairlead::cli_test

// What README.md and DEVELOPERS.md say is true: their runs print what they show, their lists are the program's own,
// the files they name exist.
#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <regex>
#include <span>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "report/words/cautions.hpp"

namespace fairlead {
namespace {

namespace fs = std::filesystem;

const fs::path top = FAIRLEAD_SOURCE_DIR;

std::string read(const std::string& file) {
  std::ifstream in(top / file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

struct ShownRun {
  std::string command, output;
};

// The commands of every fenced block that begins with "$ fairlead", each with the lines below it.
std::vector<ShownRun> runs_of(const std::string& markdown) {
  std::vector<ShownRun> runs;
  std::istringstream in(markdown);
  bool fenced = false, shows_a_run = false;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("```")) {
      fenced = !fenced;
      shows_a_run = false;
    } else if (fenced && line.starts_with("$ fairlead ")) {
      shows_a_run = true;
      runs.push_back({line.substr(2), ""});
    } else if (shows_a_run) {
      runs.back().output += line + "\n";
    }
  }
  return runs;
}

// The bullets below a heading, each on one line.
std::vector<std::string> bullets_below(const std::string& markdown, const std::string& heading) {
  std::vector<std::string> bullets;
  std::istringstream in(markdown);
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("## "))
      inside = line == "## " + heading;
    else if (inside && line.starts_with("- "))
      bullets.push_back(line.substr(2));
    else if (inside && line.starts_with("  ") && !bullets.empty())
      bullets.back() += line.substr(1);
  }
  return bullets;
}

std::string output_of(const std::string& command) {
  const std::string arguments = command.substr(command.find(' '));
  const std::string shell = "cd '" + top.string() + "' && '" FAIRLEAD_PROGRAM "'" + arguments + " 2>&1";
  std::FILE* pipe = popen(shell.c_str(), "r");
  if (!pipe) return "could not run " + shell;
  std::string output;
  char buffer[4096];
  for (std::size_t n = 0; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) output.append(buffer, n);
  pclose(pipe);
  return output;
}

std::vector<std::string> strings(std::span<const std::string_view> words) { return {words.begin(), words.end()}; }

TEST(Readme, EveryRunItShowsPrintsExactlyThat) {
  const std::vector<ShownRun> runs = runs_of(read("README.md"));
  ASSERT_FALSE(runs.empty());
  for (const ShownRun& run : runs) {
    // A last line "..." stands for the rest.
    const std::string cut = "...\n";
    const bool whole = !run.output.ends_with(cut);
    const std::string shown = whole ? run.output : run.output.substr(0, run.output.size() - cut.size());
    const std::string printed = output_of(run.command);
    EXPECT_EQ(whole ? printed : printed.substr(0, shown.size()), shown) << run.command;
  }
}

TEST(Readme, ItsCautionsAreThoseOfEveryReport) {
  EXPECT_EQ(bullets_below(read("README.md"), "Cautions"), strings(words::cautions()));
}

TEST(Readme, WhatItSaysIsNotCheckedIsWhatEveryReportSays) {
  EXPECT_EQ(bullets_below(read("README.md"), "What it does not check yet"), strings(words::not_checked()));
}

TEST(Readme, EveryFileItAndDevelopersNameExists) {
  static const std::regex name(
      R"re(\]\(([\w./-]+)\)|\b((?:geometry|report|cli|tests|layouts|\.ci)/[\w./-]*\w)(?![*<\w]))re");
  for (const char* document : {"README.md", "DEVELOPERS.md"}) {
    const std::string text = read(document);
    int names = 0;
    for (std::sregex_iterator match(text.begin(), text.end(), name), end; match != end; ++match, ++names) {
      // "build/dev/tests/..." is built, not kept.
      const auto at = match->position();
      if (at > 0 && text[static_cast<std::size_t>(at) - 1] == '/') continue;
      const std::string path = (*match)[1].matched ? (*match)[1] : (*match)[2];
      EXPECT_TRUE(fs::exists(top / path)) << document << " names " << path;
    }
    EXPECT_GT(names, 0) << document;
  }
}

TEST(ReadmeReading, RunsAndBulletsAreTakenWordForWord) {
  const std::string text =
      "```\n$ fairlead a\nb\n  c\n```\n```sh\n$ ls\nd\n```\n$ fairlead e\n## One\n- f\n  g\nh\n- i\n## Two\n- j\n";
  const std::vector<ShownRun> runs = runs_of(text);
  ASSERT_EQ(runs.size(), 1u);
  EXPECT_EQ(runs[0].command, "fairlead a");
  EXPECT_EQ(runs[0].output, "b\n  c\n");
  EXPECT_EQ(bullets_below(text, "One"), (std::vector<std::string>{"f g", "i"}));
}

}  // namespace
}  // namespace fairlead

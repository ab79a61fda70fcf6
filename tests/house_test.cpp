// The house keeps its own rules: who includes whom, what each part may touch, what must be listed.
// A linker cannot see an include, so these tests do.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "tests/house_rules.hpp"

namespace fairlead::house {
namespace {

namespace fs = std::filesystem;

const fs::path top = FAIRLEAD_SOURCE_DIR;

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// Every C++ file under these folders, as path from the top, in the order of their names.
std::map<std::string, std::string> sources_under(const std::vector<std::string>& folders) {
  std::map<std::string, std::string> sources;
  for (const std::string& folder : folders)
    for (const auto& entry : fs::recursive_directory_iterator(top / folder))
      if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp")
        sources[fs::relative(entry.path(), top).generic_string()] = read(entry.path());
  return sources;
}

Parts parts_of_the_house() {
  std::string cmake;
  for (const char* folder : {"geometry", "report", "cli"}) cmake += read(top / folder / "CMakeLists.txt");
  Parts parts = parts_of(cmake);
  Part program{
      "cli", {}, {"CLI11::CLI11"}};  // stands last and is no library, so no fairlead_part: it may use every part
  for (const Part& part : parts) program.uses.insert(part.folder);
  parts.push_back(program);
  return parts;
}

void expect_none(const std::string& file, const Breaches& breaches) {
  for (const auto& [line, what] : breaches) ADD_FAILURE() << file << ":" << line << ": " << what;
}

TEST(House, EveryFileIncludesOnlyWhatItsPartNames) {
  const Parts parts = parts_of_the_house();
  ASSERT_NE(find_part(parts, "geometry/quantity"), nullptr);
  const auto sources = sources_under({"geometry", "report", "cli"});
  ASSERT_TRUE(sources.contains("geometry/quantity/vectors.hpp"));
  for (const auto& [file, text] : sources) expect_none(file, strange_includes(file, text, parts));
}

TEST(House, PartsStandInDependencyOrder) { expect_none("CMakeLists.txt", uses_out_of_order(parts_of_the_house())); }

TEST(House, NoFileTouchesWhatItsPartMustNot) {
  for (const auto& [file, text] : sources_under({"geometry", "report", "cli"})) expect_none(file, banned(file, text));
}

TEST(House, NoFileIsLongAndNoHeaderHeavy) {
  for (const auto& [file, text] : sources_under({"geometry", "report", "cli", "tests"})) {
    expect_none(file, too_long(text));
    expect_none(file, heavy_headers(file, text));
  }
}

TEST(House, EveryCheckAndSheetIsInItsList) {
  for (const auto& [folder, type] : {std::pair{"geometry/checks", "Check"}, std::pair{"report/sheets", "SheetKind"}}) {
    const std::string list = read(top / folder / "list.cpp");
    EXPECT_FALSE(list.empty()) << folder << "/list.cpp is missing";
    Breaches all;
    for (const auto& [file, text] : sources_under({folder})) {
      expect_none(file, unlisted(type, text, list));
      for (const Breach& breach : unlisted(type, text, "")) all.push_back(breach);
    }
    EXPECT_FALSE(all.empty()) << "no " << type << " is defined under " << folder;
  }
}

// Each rule on a text that breaks it, so that none of the above is green for nothing.
TEST(HouseRules, APartIsReadFromItsBuildLine) {
  const Part reeving{"geometry/reeving", {"geometry/quantity", "geometry/mainline"}, {"fmt::fmt"}};
  EXPECT_EQ(parts_of("# fairlead_part(no)\nfairlead_part(geometry/reeving USES geometry/quantity\n"
                     "  geometry/mainline PACKAGES fmt::fmt)  # why\n"),
            Parts{reeving});
  EXPECT_EQ(uses_out_of_order({{"a", {"b"}, {}}, {"b", {"a"}, {}}}),
            (Breaches{{0, "a uses b, which comes no earlier"}}));
}

TEST(HouseRules, AnIncludeOutsideThePartIsNamedWithItsLine) {
  const Parts parts = {{"geometry/quantity", {}, {"tl::expected"}}, {"geometry/loads", {"geometry/quantity"}, {}}};
  const auto found = [&](const std::string& text) { return strange_includes("geometry/loads/loads.cpp", text, parts); };
  EXPECT_EQ(found("#include <vector>\n#include \"geometry/loads/loads.hpp\"\n#include <tl/expected.hpp>\n"),
            Breaches{});
  EXPECT_EQ(found("// #include <CGAL/Point.h>\n/*\n#include \"report/dossier.hpp\"\n*/\n"), Breaches{});
  EXPECT_EQ(found("\n#include \"geometry/rig/rig.hpp\"\n"),
            (Breaches{{2, "includes geometry/rig/rig.hpp, but geometry/loads does not USE geometry/rig"}}));
  EXPECT_EQ(found("# include <fmt/core.h>\n"),
            (Breaches{{1, "includes fmt/core.h, but geometry/loads does not name PACKAGES fmt::fmt"}}));
  EXPECT_EQ(found("#include \"loads.hpp\"\n"),
            (Breaches{{1, "includes loads.hpp, of no known package: write our own from the top folder"}}));
  EXPECT_EQ(found("#include <sys/mman.h>\n"),
            (Breaches{{1, "includes sys/mman.h, of no known package: write our own from the top folder"}}));
  EXPECT_EQ(strange_includes("report/new/a.cpp", "", parts),
            (Breaches{{0, "no fairlead_part(report/new) in a CMakeLists.txt"}}));
}

TEST(HouseRules, WhatMayNotBeTouchedIsFoundInCodeAndNotInCommentsOrWords) {
  const auto lines = [](const std::string& file, const std::string& text) {
    std::vector<int> found;
    for (const Breach& breach : banned(file, text)) found.push_back(breach.line);
    return found;
  };
  const auto once = std::vector<int>{1};
  for (const char* text : {"#include <iostream>", "#include <fstream>", "#include <ctime>", "#include <CGAL/Point_3.h>",
                           "auto t = std::chrono::steady_clock::now();", "seed = time(nullptr);", "getenv(\"HOME\");",
                           "std::random_device seed;", "std::unordered_map<int, int> m;", "std::jthread t(f);",
                           "std::FILE* in = open();", "std::locale here;", "int n = 1'000; rand();"})
    EXPECT_EQ(lines("geometry/loads/a.cpp", text), once) << text;
  for (const char* text : {"// std::cout", "/* rand()\n*/", "say(\"the FILE of a getenv\");", "double operand = 1;",
                           "auto s = R\"(rand)\";", "char c = '\"'; int brand; char d = '\"';", "x.arrival_time(0);"})
    EXPECT_EQ(lines("geometry/loads/a.cpp", text), std::vector<int>{}) << text;
  EXPECT_EQ(lines("geometry/tasks/work.cpp", "std::jthread t(f);"), std::vector<int>{});
  EXPECT_EQ(lines("geometry/sites/mapped_file.cpp", "#include <fcntl.h>"), std::vector<int>{});
  EXPECT_EQ(lines("geometry/sites/site.cpp", "#include <fcntl.h>"), once);
  EXPECT_EQ(lines("geometry/layout/read.cpp", "std::FILE* in = open();"), std::vector<int>{});
  EXPECT_EQ(lines("geometry/clearance/hull.cpp", "#include <CGAL/Point_3.h>"), std::vector<int>{});
  EXPECT_EQ(lines("report/formats/pdf.cpp", "std::locale here;"), once);
  EXPECT_EQ(lines("cli/main.cpp", "#include <iostream>\nstd::thread t;"), std::vector<int>{2});
}

TEST(HouseRules, ALongFileAHeavyHeaderAndAForgottenCheckAreFound) {
  std::string long_text(400, '\n');
  EXPECT_EQ(too_long(long_text), Breaches{});
  EXPECT_EQ(too_long(long_text + "x"), (Breaches{{401, "the file has more than 400 lines"}}));
  EXPECT_EQ(heavy_headers("a.hpp", "#include <Eigen/Dense>\n#include <CGAL/Point_3.h>").size(), 2u);
  EXPECT_EQ(heavy_headers("a.cpp", "#include <Eigen/Dense>"), Breaches{});
  const std::string check = "\nextern const Check fleet_angle{\"fleet-angle\"};\n";
  EXPECT_EQ(unlisted("Check", check, "&fleet_angle,"), Breaches{});
  EXPECT_EQ(unlisted("Check", check, "// &fleet_angle,\n&fleet_angles"),
            (Breaches{{2, "fleet_angle is missing from list.cpp"}}));
}

}  // namespace
}  // namespace fairlead::house

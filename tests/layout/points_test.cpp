// The section [points]: places that a surveyor's file says.
#include "tests/layout/good_layout.hpp"
#include "tests/scratch.hpp"

namespace fairlead {
namespace {

const std::string section = "[points]\nfile = \"sub/rig.csv\"\norder = \"pnezd\"\nunit = \"m\"\n";
const std::string rig = "# northing first\nA2,12.5,220.0,8.25,end tower\nE1,1.0,180.5,11.5,eye\n";

// The good layout with a section of points, and two of its places named.
std::string surveyed_text(const std::string& points = section) {
  return edited("position = [220.0, \"0 ft\", \"26 ft 3 in\"]", "position = \"A2\"",
                edited("outlet = [", "outlet = \"E1\" # [", edited("[site]\n", points + "\n[site]\n")));
}

FileSource one_file(const std::string& path, const std::string& bytes) {
  return [=](const std::string& wanted) -> tl::expected<std::string, FileRefused> {
    if (wanted != path) return tl::unexpected<FileRefused>(FileRefused{"there is no such file", ""});
    return bytes;
  };
}

Layout surveyed(const std::string& text = surveyed_text(), const std::vector<Override>& overrides = {},
                const std::string& csv = rig) {
  auto layout = read_layout_text(text, "site/otter.toml", overrides, one_file("site/sub/rig.csv", csv));
  if (!layout) throw std::runtime_error(print(layout.error().front()));
  return std::move(*layout);
}

TEST(LayoutPoints, APlaceMayNameAPointAndThenStandsInTheLineOfThePointsFile) {
  const Layout layout = surveyed();
  EXPECT_EQ(layout.anchors[1].position.value, (Point3{220.0, 12.5, 8.25}));
  EXPECT_EQ(layout.anchors[1].position.place, (Place{2, 2, 1}));
  EXPECT_EQ(layout.brake_unit.outlet.value, (Point3{180.5, 1.0, 11.5}));
  ASSERT_EQ(layout.files.size(), 3u);
  EXPECT_EQ(layout.files[2], "site/sub/rig.csv");
  EXPECT_EQ(layout.anchors[0].position.place.file, 0);  // typed
}

TEST(LayoutPoints, TheStatedOrderUnitAndTargetOffsetAreTakenAndNotGuessed) {
  const std::string text =
      surveyed_text("[points]\nfile = \"sub/rig.csv\"\norder = \"penzd\"\nunit = \"mm\"\ntarget_offset = \"1.5 m\"\n");
  const Layout layout = surveyed(text, {}, "A2,220000.0,12500.0,8250\nE1,180500,1000,11500\n");
  EXPECT_EQ(layout.anchors[1].position.value, (Point3{220.0, 12.5, 6.75}));
}

TEST(LayoutPoints, ALayoutOfTypedPlacesIsTheSameAsOneOfSurveyedOnesButForThePlaces) {
  const Layout typed =
      layout_of(edited("position = [220.0, \"0 ft\", \"26 ft 3 in\"]", "position = [220.0, 12.5, 8.25]"));
  const Layout named = surveyed(edited("outlet = \"E1\" # [", "outlet = [", surveyed_text()));
  EXPECT_EQ(typed.anchors[1].position.value, named.anchors[1].position.value);
  EXPECT_EQ(typed.files.size(), 2u);
  EXPECT_EQ(assumptions(typed), assumptions(named));
}

// By coreutils: cat otter.toml rig.csv | sha256sum; here one file whose bytes are those of both.
TEST(LayoutPoints, TheHashIsThatOfTheLayoutAndBehindItThePointsFile) {
  EXPECT_NE(surveyed().sha256, surveyed(surveyed_text(), {}, rig + "# checked\n").sha256);
  const std::string moved = rig.substr(0, rig.find('\n') + 1);  // a comment, so both halves still read
  EXPECT_EQ(surveyed(surveyed_text() + moved, {}, rig.substr(moved.size())).sha256, surveyed().sha256);
}

TEST(LayoutPoints, TheCommandLineNamesAPointOrTypesAPlace) {
  const Layout typed = surveyed(surveyed_text(), {{"anchor.A2.position", "[221, 2, 3]"}});
  EXPECT_EQ(typed.anchors[1].position.value, (Point3{221, 2, 3}));
  const Layout named = surveyed(surveyed_text(), {{"anchor.A3.position", "E1"}});
  EXPECT_EQ(named.anchors[2].position.value, (Point3{180.5, 1.0, 11.5}));
  EXPECT_EQ(named.anchors[2].position.place, (Place{2, 3, 1}));
  EXPECT_EQ(assumptions(named).back(), "anchor.A3.position = E1, from the command line");
}

TEST(LayoutPoints, ThePointsThatNoKeyNamesArePegs) {
  const Layout layout = surveyed(surveyed_text(), {}, rig + "PEG2,1,2,3,\nPEG1,4,5,6,nail\n");
  EXPECT_EQ(*layout.points->pegs,
            (std::vector<SurveyPoint>{{"PEG2", {2, 1, 3}, "", 4}, {"PEG1", {5, 4, 6}, "nail", 5}}));
  EXPECT_TRUE(surveyed().points->pegs->empty());
  EXPECT_EQ(surveyed(surveyed_text(), {{"brake_unit.outlet", "[216, 0, 9]"}}).points->pegs->front().id, "E1");
}

TEST(LayoutPoints, WithoutASourceOfFilesALayoutCanNameNone) {
  const std::string text = surveyed_text();
  EXPECT_EQ(printed_errors(text),
            error_at(text, text.find("\"sub/rig.csv\""), 13, "points: \"sub/rig.csv\": no file can be read from here",
                     "its path is that from the layout's directory"));
}

TEST(LayoutPoints, AFileIsLookedForBesideTheLayoutThatNamesIt) {
  const Scratch folder;
  folder.write("otter.toml", surveyed_text());
  folder.write("sub/rig.csv", rig);
  const auto layout = read_layout(folder / "otter.toml");
  ASSERT_TRUE(layout.has_value()) << print(layout.error().front());
  EXPECT_EQ(layout->files[2], folder / "sub/rig.csv");
  EXPECT_EQ(layout->sha256, surveyed().sha256);
  std::filesystem::remove(folder / "sub/rig.csv");
  std::filesystem::create_directory(folder / "sub/rig.csv");
  const auto none = read_layout(folder / "otter.toml");
  ASSERT_FALSE(none.has_value());
  EXPECT_EQ(none.error().front().message, fmt::format("points: \"{}\": this is a directory", folder / "sub/rig.csv"));
}

TEST(LayoutPoints, ManyErrorsOfBothFilesEndInOneCount) {
  std::string csv;
  for (int i = 0; i < 500; ++i) csv += fmt::format("P{},1,2\n", i);
  const auto layout = read_layout_text(surveyed_text(), "site/otter.toml", {}, one_file("site/sub/rig.csv", csv));
  ASSERT_FALSE(layout.has_value());
  ASSERT_EQ(layout.error().size(), 201u);
  EXPECT_EQ(print(layout.error().back()), "site/otter.toml: error: and 300 more errors\n");
}

}  // namespace
}  // namespace fairlead

// Scans that a layout names: read beside it, refused where their name stands, and part of the layout's hash.
#include "tests/layout/good_layout.hpp"
#include "tests/scratch.hpp"

namespace fairlead {
namespace {

const std::string scan = R"(
[[structure]]
id = "wood"
kind = "scan"
file = "wood.xyz"
unit = "mm"
origin = [200, 3, 0]
turned = "90 deg"
radius = "0.1 m"
)";
const std::string triangle =
    "solid one\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n"
    "endsolid one\n";

/// A folder with the good layout and more text; scans go beside it.
class Folder : public Scratch {
 public:
  explicit Folder(const std::string& more) { write("otter.toml", good_text() + more); }
  tl::expected<Layout, Diagnostics> read(unsigned threads = 1) const {
    return read_layout(*this / "otter.toml", {}, {.threads = threads});
  }
};

std::vector<std::string> messages(const tl::expected<Layout, Diagnostics>& layout) {
  std::vector<std::string> all;
  if (!layout)
    for (const Diagnostic& error : layout.error()) all.push_back(error.message + "; " + error.instead);
  return all;
}

TEST(LayoutScans, StandWhereTheLayoutPutsThem) {
  const Folder folder(scan);
  folder.write("wood.xyz", "1000 0 500\n2000 0 500\n");
  const auto layout = folder.read();
  ASSERT_TRUE(layout.has_value()) << print(layout.error().front());
  const Structure& wood = layout->structures.back();
  ASSERT_TRUE(wood.site);
  EXPECT_TRUE(wood.site->is_cloud());
  const Point3 second = wood.site->corners(1)[0];  // 2 m along its x axis, which is turned to the site's y
  EXPECT_NEAR(second.x, 200, 1e-12);
  EXPECT_NEAR(second.y, 5, 1e-12);
  EXPECT_NEAR(second.z, 0.5, 1e-12);
}

TEST(LayoutScans, AreInTheLayoutsHashWithEveryByte) {
  const Folder folder(scan);
  folder.write("wood.xyz", "1000 0 500\n2000 0 500\n");
  const auto one = folder.read(), again = folder.read(2);
  folder.write("wood.xyz", "1000 0 500\n2000 0 501\n");
  const auto other = folder.read();
  ASSERT_TRUE(one && again && other);
  EXPECT_EQ(one->sha256, again->sha256);
  EXPECT_NE(one->sha256, other->sha256);
}

TEST(LayoutScans, ThatCanNotBeUsedAreRefusedWhereTheyAreNamed) {
  const Folder folder(scan);
  EXPECT_EQ(messages(folder.read()),
            (std::vector<std::string>{"structure \"wood\": " + folder / "wood.xyz" +
                                      ": there is no such file; its path is that from the layout's directory"}));
  folder.write("wood.xyz", "1 2\nx 3 4\n");
  const std::vector<std::string> wrong = messages(folder.read());
  ASSERT_EQ(wrong.size(), 2u) << "a line each";
  EXPECT_NE(wrong[0].find("wood.xyz:1: "), std::string::npos) << wrong[0];
  EXPECT_NE(wrong[1].find("wood.xyz:2: "), std::string::npos) << wrong[1];
  const auto refused = folder.read();
  EXPECT_EQ(refused.error()[0].source_line, "file = \"wood.xyz\"");
}

TEST(LayoutScans, OfPointsHaveARadiusAndOfTrianglesNone) {
  {
    const Folder folder(edited("radius = \"0.1 m\"\n", "", scan));
    folder.write("wood.xyz", "1 2 3\n");
    ASSERT_EQ(messages(folder.read()).size(), 1u);
    EXPECT_NE(messages(folder.read())[0].find("give them a \"radius\""), std::string::npos);
  }
  const Folder folder(edited("wood.xyz", "wood.stl", scan));
  folder.write("wood.stl", triangle);
  EXPECT_EQ(messages(folder.read()),
            (std::vector<std::string>{
                "structure \"wood\": a scan of triangles has a surface of its own; leave \"radius\" out"}));
}

TEST(LayoutScans, OfAnUnknownKindOfFileAreRefused) {
  const Folder folder(edited("wood.xyz", "wood.las", scan));
  EXPECT_EQ(messages(folder.read()),
            (std::vector<std::string>{"structure \"wood\": what kind of file \"wood.las\" is does not show; its name "
                                      "ends in .stl, .ply, .obj or .xyz"}));
}

TEST(LayoutScans, NeedTheirKeysAndNoOthers) {
  const std::string printed = printed_errors(good_text() +
                                             "\n[[structure]]\nid = \"s\"\nkind = \"scan\"\n"
                                             "diameter = \"1 m\"\n");
  EXPECT_NE(printed.find("\"file\" is missing"), std::string::npos) << printed;
  EXPECT_NE(printed.find("\"unit\" is missing"), std::string::npos) << printed;
  EXPECT_NE(printed.find("a scan has no \"diameter\""), std::string::npos) << printed;
}

TEST(LayoutScans, WithoutASourceOfFilesALayoutCanNameNone) {
  EXPECT_NE(printed_errors(good_text() + scan).find("structure \"wood\": no file can be read from here"),
            std::string::npos);
}

}  // namespace
}  // namespace fairlead

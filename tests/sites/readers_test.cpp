// Every format, whole and broken.
#include "geometry/sites/readers.hpp"

#include <gtest/gtest.h>

#include "geometry/sites/tree.hpp"
#include "tests/sites/files.hpp"

namespace fairlead::sites {
namespace {

/// A tetrahedron whose coordinates are exact in float.
const Corners pyramid = {{Point3{0, 0, 0}, {0, 2, 0}, {1, 0, 0}},
                         {Point3{0, 0, 0}, {1, 0, 0}, {0, 0, 3}},
                         {Point3{0, 0, 0}, {0, 0, 3}, {0, 2, 0}},
                         {Point3{1, 0, 0}, {0, 2, 0}, {0, 0, 3}}};
const std::string vertices = "0 0 0\n1 0 0\n0 2 0\n0 0 3\n";
const std::string faces = "3 0 2 1\n3 0 1 3\n3 0 3 2\n3 1 2 3\n";

std::string stl_text() {
  std::string text = "solid pyramid of four\n";
  for (const auto& triangle : pyramid) {
    text += "  facet normal 0 0 1\n    outer loop\n";
    for (const Point3& p : triangle)
      text += "      vertex " + std::to_string(p.x) + " " + std::to_string(p.y) + " " + std::to_string(p.z) + "\n";
    text += "    endloop\n  endfacet\n";
  }
  return text + "endsolid pyramid of four\n";
}
std::string ply_text(std::string_view faces_text = faces) {
  return "ply\nformat ascii 1.0\ncomment made by hand\nelement vertex 4\nproperty float x\nproperty float y\nproperty "
         "float z\nelement face 4\nproperty list uchar int vertex_indices\nend_header\n" +
         vertices + std::string(faces_text);
}
/// With colours behind the coordinates, and flags behind the faces, as scanners write them.
std::string ply_binary(bool big_endian) {
  std::string file =
      std::string("ply\nformat binary_") + (big_endian ? "big" : "little") +
      "_endian 1.0\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nproperty uchar "
      "red\nelement face 4\nproperty list uchar uint vertex_indices\nproperty int flags\nend_header\n";
  for (const float c : {0.F, 0.F, 0.F, 1.F, 0.F, 0.F, 0.F, 2.F, 0.F, 0.F, 0.F, 3.F}) {
    append(file, c, big_endian);
    static int count = 0;
    if (++count % 3 == 0) file += '\x80';
  }
  for (const auto& face : {std::array{0u, 2u, 1u}, {0u, 1u, 3u}, {0u, 3u, 2u}, {1u, 2u, 3u}}) {
    file += '\3';
    for (const unsigned corner : face) append(file, corner, big_endian);
    append(file, 7, big_endian);
  }
  return file;
}
std::string obj_text() {
  return "# by hand\nmtllib none.mtl\nv 0 0 0\nv 1 0 0 0.5 0.5 0.5\nv 0 2 0\nv 0 0 3\nvt 0 0\nvn 0 0 1\nf 1/1/1 3//1 "
         "2\n"
         "f 1 2 \\\n 4\ns off\nf -4 -1 -2\nf 2 3 4\n";
}

Corners corners_in(const Mesh& mesh) {
  Corners corners;
  for (std::uint32_t i = 0; i < mesh.items.count; ++i) corners.push_back(corners_of(mesh.items, i));
  return corners;
}

ReadMesh read(const std::string& file, Format format, const ReadLimits& limits = {}) {
  return read_mesh(bytes_of(file), format, limits);
}

/// The words of every error, each with its place.
std::string told(const ReadErrors& errors) {
  std::string all;
  for (const ReadError& e : errors.first)
    all += (e.line > 0 ? "line " + std::to_string(e.line) : "byte " + std::to_string(e.offset)) + ": " + e.message +
           "; " + e.instead + "\n";
  return all + (errors.more > 0 ? std::to_string(errors.more) + " more\n" : "");
}
std::string refusal(const std::string& file, Format format, const ReadLimits& limits = {}) {
  const ReadMesh mesh = read(file, format, limits);
  return mesh ? "it was read" : told(mesh.error());
}

TEST(SiteReaders, EveryFormatHoldsTheSamePyramid) {
  const std::pair<std::string, Format> files[] = {{binary_stl(pyramid), Format::stl},
                                                  {stl_text(), Format::stl},
                                                  {ply_text(), Format::ply},
                                                  {ply_binary(false), Format::ply},
                                                  {ply_binary(true), Format::ply},
                                                  {obj_text(), Format::obj},
                                                  {binary_stl(pyramid, "solid but binary"), Format::stl},
                                                  {binary_ply(pyramid), Format::ply}};
  for (const auto& [file, format] : files) {
    const ReadMesh mesh = read(file, format);
    ASSERT_TRUE(mesh.has_value()) << file.substr(0, 60) << told(mesh.error());
    EXPECT_EQ(corners_in(*mesh), pyramid) << file.substr(0, 60);
    EXPECT_EQ(mesh->loose_vertices, 0u);
  }
}

TEST(SiteReaders, WindowsLinesCapitalsAndPlusSignsChangeNothing) {
  std::string text;
  for (const char c : stl_text())
    text += c == '\n' ? "\r\n" : std::string(1, c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c);
  ASSERT_TRUE(read(text, Format::stl).has_value());
  EXPECT_EQ(corners_in(*read(text, Format::stl)), pyramid);
  const std::string plus = "\xEF\xBB\xBFv +0 0 0\r\nv 1 0 0\r\nv +1e0 1 0\r\nf 1 2 3\r\n";
  ASSERT_TRUE(read(plus, Format::obj).has_value());
  EXPECT_EQ(corners_in(*read(plus, Format::obj)), (Corners{{Point3{0, 0, 0}, {1, 0, 0}, {1, 1, 0}}}));
}

/// Of more facets than are read at one go, in two solids; facet n stands at x = n and has seven lines.
constexpr int many_facets = 80'000;
std::string long_stl_text() {
  std::string text = "solid one\n";
  for (int n = 0; n < many_facets; ++n) {
    const std::string x = std::to_string(n);
    if (n == many_facets / 3) text += "endsolid one\nsolid two facet by facet\n";
    text += "facet normal 0 0 1\nouter loop\nvertex " + x + ".25 0.000000 0.000000\nvertex " + x +
            ".25 1.000000 0.000000\nvertex " + x + ".25 0.000000 2.000000\nendloop\nendfacet\n";
  }
  return text + "endsolid two\n";
}

TEST(SiteReaders, LongTextsHoldTheSameOnAnyNumberOfThreads) {
  const std::string text = long_stl_text();
  ASSERT_GT(text.size(), std::size_t{9} << 20) << "more than two parts";
  for (const unsigned threads : {1u, 2u, 5u}) {
    const ReadMesh mesh = read_mesh(bytes_of(text), Format::stl, {}, {.threads = threads});
    ASSERT_TRUE(mesh.has_value()) << told(mesh.error());
    const Corners corners = corners_in(*mesh);
    ASSERT_EQ(corners.size(), std::size_t{many_facets});
    for (int n = 0; n < many_facets; ++n) {
      const double x = n + 0.25;
      ASSERT_EQ(corners[static_cast<std::size_t>(n)], (std::array{Point3{x, 0, 0}, Point3{x, 1, 0}, Point3{x, 0, 2}}))
          << n;
    }
  }
}

TEST(SiteReaders, InLongTextsFansAreCountedInEveryPart) {
  std::string text = long_stl_text();
  for (const char* facet : {"vertex 5.25 0.000000 2.000000\n", "vertex 79995.25 0.000000 2.000000\n"}) {
    const std::size_t at = text.find(facet);
    ASSERT_NE(at, text.npos);
    text.insert(at, "vertex 4 4 4\n");
  }
  const ReadMesh mesh = read(text, Format::stl);
  ASSERT_TRUE(mesh.has_value()) << told(mesh.error());
  EXPECT_EQ(mesh->fanned, 2u);
  EXPECT_EQ(mesh->items.count, std::uint32_t{many_facets} + 2);
}

TEST(SiteReaders, InLongTextsErrorsHaveTheirLines) {
  std::string text = long_stl_text();
  const std::size_t early = text.find("vertex 7.25 1"), late = text.find("vertex 79999.25 1");
  text[early + 7] = text[late + 7] = 'O';
  const std::string wanted = "write three numbers: x y z\n";
  // One line before the first solid's facets, two more between the solids.
  EXPECT_EQ(refusal(text, Format::stl), "line " + std::to_string(1 + 7 * 7 + 4) + ": \"O.25\" is no number; " + wanted +
                                            "line " + std::to_string(3 + 79'999 * 7 + 4) +
                                            ": \"O9999.25\" is no number; " + wanted);
  const std::string whole = long_stl_text();
  EXPECT_EQ(refusal(whole.substr(0, whole.size() - std::string("endsolid two\n").size()), Format::stl),
            "line " + std::to_string(3 + many_facets * 7 + 1) +
                ": the file ends where \"endsolid\" should follow: it is cut short; get the whole file\n");
  EXPECT_EQ(refusal(whole, Format::stl, {.most_items = many_facets - 1}).substr(0, 5), "line ");
}

TEST(SiteReaders, NothingIsCopiedOfBinaryTriangles) {
  for (const auto& [file, format] : {std::pair{binary_stl(pyramid), Format::stl}, {ply_binary(false), Format::ply}}) {
    const auto mesh = read(file, format);
    EXPECT_TRUE(mesh->coordinates.empty() && mesh->indices.empty());
    EXPECT_GE(reinterpret_cast<const char*>(mesh->items.coordinates), file.data());
    EXPECT_LT(reinterpret_cast<const char*>(mesh->items.coordinates), file.data() + file.size());
  }
}

TEST(SiteReaders, CloudsArePoints) {
  const std::string ply =
      "ply\nformat ascii 1.0\nelement vertex 4\nproperty double x\nproperty double y\nproperty double z\nend_header\n" +
      vertices;
  const std::string spaced = "# x y z intensity\n" + vertices, commas = "x, y, z\n0, 0, 0\n1, 0,0\n0 ,2,0\n0,0,3\n";
  for (const auto& [file, format] : {std::pair{ply, Format::ply}, {spaced, Format::xyz}, {commas, Format::xyz}}) {
    const auto mesh = read(file, format);
    ASSERT_TRUE(mesh.has_value()) << told(mesh.error());
    EXPECT_EQ(mesh->items.corners, 1);
    ASSERT_EQ(mesh->items.count, 4u);
    EXPECT_EQ(corners_of(mesh->items, 3)[0], (Point3{0, 0, 3}));
  }
  EXPECT_EQ(read(commas, Format::xyz)->notes, std::vector<std::string>{"line 1: \"x, y, z\" is taken for a heading"});
  EXPECT_EQ(read("1 2 3 255\n", Format::xyz)->notes, std::vector<std::string>{"columns behind the third are not read"});
}

TEST(SiteReaders, PolygonsAreFansLinesAndPointsAreFlat) {
  const auto mesh = read("v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 9 9 9\nf 1 2 3 4\nl 1 2 3\np 4\n", Format::obj);
  ASSERT_TRUE(mesh.has_value());
  const Point3 a{0, 0, 0}, b{1, 0, 0}, c{1, 1, 0}, d{0, 1, 0};
  EXPECT_EQ(corners_in(*mesh), (Corners{{a, b, c}, {a, c, d}, {a, b, b}, {b, c, c}, {d, d, d}}));
  EXPECT_EQ(mesh->fanned, 1u);
  EXPECT_EQ(mesh->loose_vertices, 1u);
}

TEST(SiteReaders, WhatIsCutShortIsRefusedWithItsPlace) {
  const std::string stl = binary_stl(pyramid), text = stl_text();
  EXPECT_EQ(
      refusal(stl.substr(0, 200), Format::stl),
      "byte 200: the file says that it holds 4 triangles, which take 284 bytes, and has 200; get the whole file\n");
  EXPECT_EQ(
      refusal(stl + "more", Format::stl),
      "byte 288: the file says that it holds 4 triangles, which take 284 bytes, and has 288; export the file anew\n");
  EXPECT_EQ(refusal(stl.substr(0, 50), Format::stl),
            "byte 50: the file has 50 bytes, and an STL file at least 84; get the whole file\n");
  EXPECT_EQ(refusal(text.substr(0, text.find("endsolid")), Format::stl),
            "line 30: the file ends where \"endsolid\" should follow: it is cut short; get the whole file\n");
  EXPECT_EQ(refusal(text.substr(0, 140), Format::stl),
            "line 6: the file ends where \"endloop\" should follow: it is cut short; get the whole file\n");
  EXPECT_EQ(refusal(ply_text("3 0 2 1\n3 0 1"), Format::ply),
            "line 16: a list of 3 is longer than what is left of the file; get the whole file, or export it anew\n");
  const std::string binary = ply_binary(false);
  EXPECT_EQ(refusal(binary.substr(0, binary.size() - 3), Format::ply),
            "byte " + std::to_string(binary.size() - 4) +
                ": the file ends within \"face\" 4 of 4; get the whole file, or export it anew\n");
  EXPECT_EQ(refusal("ply\nformat ascii 1.0\n", Format::ply), "line 3: the header has no end; get the whole file\n");
  EXPECT_EQ(refusal("v 0 0 0\nv 1 1 1\nf 1 2 3\nf 1 2 2\n", Format::obj),
            "line 3: vertex 3 is not there; get the whole file\n");
}

TEST(SiteReaders, UnknownAndAbsurdCoordinatesAreRefusedWithTheirPlace) {
  EXPECT_EQ(
      refusal("v 0 0 0\nv nan 0 0\nv 0 inf 0\nv 2e6 0 0\nv 1,5 0 0\nv 1 2\nf 1 2 3\n", Format::obj),
      "line 2: a coordinate is not a number; mend the file\n"
      "line 3: a coordinate is infinite; mend the file\n"
      "line 4: a coordinate is 2e+06, and the farthest that is believed 1e+06; check the unit, and move the file's "
      "origin near to the site\n"
      "line 5: \"1,5\" is no number; write a decimal point\n"
      "line 6: a coordinate is missing; write three numbers: x y z\n");
  EXPECT_EQ(refusal("1,5 2,5 3,5\n", Format::xyz), "line 1: \"5 2\" is no number; write three numbers: x y z\n");
  Corners broken = pyramid;
  broken[2][1].y = NAN;
  const std::string file = binary_stl(broken);
  const auto mesh = read(file, Format::stl);
  ASSERT_TRUE(mesh.has_value()) << "in place: not looked at yet";
  const auto tree = Tree::over(mesh->items, 1e6, {});
  ASSERT_FALSE(tree.has_value());
  EXPECT_EQ(tree.error().item, 2u);
  EXPECT_EQ(told(astray(*mesh, bytes_of(file), {})),
            "byte 212: a coordinate is not a number; mend the file\n");  // 84 + 2 x 50 + 12 + 12 + 4
}

TEST(SiteReaders, OfManyErrorsTheFirstTwentyAreTold) {
  std::string text;
  for (int i = 0; i < 50; ++i) text += "v x 0 0\n";
  const auto mesh = read(text, Format::obj);
  ASSERT_FALSE(mesh.has_value());
  EXPECT_EQ(mesh.error().first.size(), 20u);
  EXPECT_EQ(mesh.error().more, 30u);
}

TEST(SiteReaders, WhatIsTooLargeIsRefusedWithItsSize) {
  EXPECT_EQ(
      refusal(binary_stl(pyramid), Format::stl, {.most_bytes = 200}),
      "byte 0: the file has 284 bytes, and a site at most 200; thin it out, or cut away what is far from the line\n");
  EXPECT_EQ(
      refusal(binary_stl(pyramid), Format::stl, {.most_items = 3}),
      "byte 80: the file has 4 triangles, and a site at most 3; thin it out, or cut away what is far from the line\n");
  for (const auto& [file, format] : {std::pair{stl_text(), Format::stl},
                                     {obj_text(), Format::obj},
                                     {ply_binary(true), Format::ply},
                                     {vertices, Format::xyz}})
    EXPECT_NE(refusal(file, format, {.most_items = 3}).find("thin it out"), std::string::npos) << file.substr(0, 40);
  EXPECT_EQ(refusal("ply\nformat ascii 1.0\nelement vertex 99999999999\nproperty float x\nproperty float y\nproperty "
                    "float z\nend_header\n",
                    Format::ply),
            "line 7: the file has 99999999999 of the element \"vertex\", and a site at most 20000000; thin it out, or "
            "cut away what is far from the line\n");
}

TEST(SiteReaders, WhatIsNoSiteIsRefused) {
  for (const auto& [file, format] : {std::pair{std::string("ply\n"), Format::obj},
                                     {std::string(), Format::xyz},
                                     {std::string("v 1 2 3\n"), Format::obj}})
    EXPECT_NE(refusal(file, format).find("there is neither a triangle nor a point in it"), std::string::npos);
  EXPECT_EQ(refusal("v 1 2 3\n", Format::ply), "line 1: a PLY file begins with the line \"ply\"; name a PLY file\n");
  EXPECT_EQ(refusal("\xFF\xFEv\0", Format::obj), "byte 0: the file is UTF-16 text; save it as plain text or UTF-8\n");
  EXPECT_EQ(refusal("v 0 0 0\nsurf 0 1 0 1 1 2 3\n", Format::obj),
            "line 2: \"surf\" is of a curved surface, and only polygons are read; export the file as triangles\n");
  EXPECT_EQ(refusal(ply_text("3 0 2 9\n3 0 1 3\n3 0 3 2\n3 1 2 3\n"), Format::ply),
            "line 15: face 1 has the vertex 9, and there are 4; get the whole file, or export it anew\n");
}

TEST(SiteReaders, AWordThatIsNoneIsTold) {
  const auto mesh = read("v 0 0 0\nv 1 0 0\nv 0 1 0\nface 1 2 3\nf 1 2 3\n", Format::obj);
  ASSERT_TRUE(mesh.has_value());
  EXPECT_EQ(mesh->notes,
            std::vector<std::string>{"line 4: \"face\" is no word of an OBJ file; passed over (1 such lines)"});
}

}  // namespace
}  // namespace fairlead::sites

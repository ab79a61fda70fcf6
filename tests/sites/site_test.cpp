// Whole sites: against the exact distance of every item, and the laws that hold whatever the mesh.
#include "geometry/sites/site.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <numbers>

#include "geometry/sites/blocks.hpp"
#include "geometry/sites/exact.hpp"
#include "tests/scratch.hpp"
#include "tests/sites/draws.hpp"
#include "tests/sites/files.hpp"
#include "tests/sites/oracle.hpp"

namespace fairlead::sites {
namespace {

Site site_of(const std::string& file, Format format = Format::stl, const Placement& placement = {},
             double radius_m = 0) {
  auto site = Site::over(bytes_of(file), {.format = format, .placement = placement, .point_radius_m = radius_m});
  EXPECT_TRUE(site.has_value()) << (site ? "" : site.error().first[0].message);
  return std::move(*site);
}

Corners mess(Draws& draws, int count) {
  Corners triangles;
  for (int i = 0; i < count; ++i) {
    triangles.push_back(draws.triangle());
    if (i % 7 == 0) triangles.push_back(triangles[static_cast<std::size_t>(draws.whole(0, i))]);  // duplicates
  }
  return triangles;
}

TEST(Site, FindsTheLeastOfTheExactDistancesOfAllItsTriangles) {
  for (const double datum_m : {0., 5e5})
    for (const Draws::Kind kind : {Draws::Kind::any, Draws::Kind::grid, Draws::Kind::near_grid}) {
      Draws draws{std::mt19937_64(21), datum_m, kind};
      const Corners triangles = mess(draws, 24);
      const std::string file = binary_ply(triangles);
      const Site site = site_of(file, Format::ply);
      for (int i = 0; i < 6; ++i) {
        std::vector<Point3> shape;
        const Vec3 away = i % 3 == 0 ? Vec3{0, 0, 14} : Vec3{};
        for (int k = i % 2 == 0 ? 2 : 8; k > 0; --k) shape.push_back(draws.point() + away);
        double least = HUGE_VAL, size = 0;
        for (const auto& triangle : triangles) {
          least = std::min(least, exact_distance(shape, triangle));
          size = std::max(size, size_of({shape, triangle}));
        }
        const auto near = shape.size() == 2 ? site.nearest(Capsule{shape[0], shape[1]}) : site.nearest(Hull{shape});
        ASSERT_TRUE(near.has_value());
        EXPECT_NEAR(near->distance_m, least, 1e-12 * size) << "draw " << i << " at " << datum_m;
        EXPECT_NEAR(exact_distance(shape, triangles[near->item]), least, 1e-12 * size);
      }
    }
}

struct Scene {
  Corners ground = terrain(60, 120);
  std::string file = binary_stl(ground);
  std::vector<Capsule> lines;
  std::vector<std::vector<Point3>> riders;
  std::vector<Hull> hulls;
  Scene() {
    Draws draws{std::mt19937_64(22)};
    for (int i = 0; i < 120; ++i) {
      const double t = i / 120.;
      const Point3 trolley{10 + 100 * t, 60, 25 - 14 * t};
      lines.push_back({{0, 58, 30}, trolley, 0.01});
      lines.push_back({trolley, trolley + Vec3{draws.any(-3, 3), draws.any(-3, 3), draws.any(-20, -1)}, 0.02});
      std::vector<Point3> rider;
      for (int k = 0; k < 8; ++k)
        rider.push_back(trolley + Vec3{k % 2 - 0.5 + 0.1 * t, k / 2 % 2 - 0.5, -2. * (k / 4) - 6});
      riders.push_back(rider);
    }
    for (const auto& rider : riders) hulls.push_back({rider, 0.3});
  }
};

void expect_same(const std::optional<Near>& a, const std::optional<Near>& b, const std::string& what) {
  ASSERT_EQ(a.has_value(), b.has_value()) << what;
  if (!a) return;
  EXPECT_EQ(a->distance_m, b->distance_m) << what;
  EXPECT_EQ(a->overlap_m, b->overlap_m) << what;
  EXPECT_EQ(a->on_shape, b->on_shape) << what;
  EXPECT_EQ(a->on_site, b->on_site) << what;
  EXPECT_EQ(a->item, b->item) << what;
}

/// Corners on a line, exactly and all but, as they lie in a file of floats.
TEST(Site, CountsTrianglesWithoutAreaExactly) {
  Draws draws{std::mt19937_64(7)};
  Corners corners;
  std::uint32_t flat = 0;
  for (int i = 0; i < 4000; ++i) {
    // Along each axis two corners so far apart that a float has one bit too few for it, and a third of the way, which
    // is one. In steps of a 4096th.
    constexpr double step = 1. / 4096, farthest = 4096 / step;
    double from[3], to[3];
    for (int k = 0; k < 3; ++k) {
      const double sign = (i >> k) % 2 == 0 ? 1 : -1, start = farthest - std::floor(draws.any(1, 1e6));
      double way = 2 * farthest - std::floor(draws.any(2e6, 3e6));
      way -= std::fmod(way, 6) - 3;  // odd, and three times a whole number
      from[k] = sign * start * step, to[k] = from[k] - sign * way * step;
    }
    const Point3 at{from[0], from[1], from[2]}, second{to[0], to[1], to[2]};
    const auto third_of = [&](int k) { return from[k] + (to[k] - from[k]) / 3; };
    Point3 third{third_of(0), third_of(1), third_of(2)};
    if (i % 2 == 1) third.z = static_cast<double>(std::nextafter(static_cast<float>(third.z), 1e9F));
    const Vec3 side = second - at;
    const Vec3 other = third - at;
    flat += cross(side, other) == Vec3{};
    corners.push_back({at, second, third});
  }
  EXPECT_EQ(flat, 2000u);
  EXPECT_EQ(site_of(binary_stl(corners)).soundness().flat, flat);
}

TEST(Site, ResultsAreTheSameOnAnyThreadsFromAnyStartAndWithinAnyCap) {
  const Scene scene;
  const Site site = site_of(scene.file);
  const auto lines = site.nearest_of_each(scene.lines, 2, HUGE_VAL, {});
  const auto hulls = site.nearest_of_each(scene.hulls, 1, HUGE_VAL, {});
  const auto threaded = site.nearest_of_each(scene.lines, 2, HUGE_VAL, {.threads = 3});
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string what = "line " + std::to_string(i);
    expect_same(site.nearest(scene.lines[i]), lines[i], what);
    expect_same(threaded[i], lines[i], what);
    expect_same(site.nearest(scene.lines[i], {.start = 17}), lines[i], what);
    expect_same(site.nearest(scene.lines[i], {.within_m = lines[i]->distance_m * (1 + 1e-12) + 1e-12}), lines[i], what);
    if (lines[i]->distance_m > 0) {
      EXPECT_FALSE(site.nearest(scene.lines[i], {.within_m = 0.999 * lines[i]->distance_m})) << what;
    }
  }
  for (std::size_t i = 0; i < hulls.size(); ++i) {
    expect_same(site.nearest(scene.hulls[i], {.start = 7000}), hulls[i], "hull " + std::to_string(i));
    expect_same(site.nearest(scene.hulls[i], {.within_m = 3}), hulls[i]->distance_m <= 3 ? hulls[i] : std::nullopt,
                "hull");
  }
}

// So many that their blocks are ordered along the curve.
TEST(Site, OfALargeSiteTheNearestOfAllItsTrianglesIsFound) {
  const Corners ground = terrain(280, 120);
  const std::string file = binary_stl(ground);
  const Site site = site_of(file);
  ASSERT_GT(site.soundness().items, std::uint32_t{1 << 14} * per_block);
  const auto threaded = Site::over(bytes_of(file), {.format = Format::stl}, {.threads = 3});
  ASSERT_TRUE(threaded.has_value());
  const Scene scene;
  for (std::size_t i = 0; i < scene.lines.size(); i += 12) {
    const Capsule line{scene.lines[i].from, scene.lines[i].to};
    double least_m = HUGE_VAL;
    for (std::uint32_t item = 0; item < site.soundness().items; ++item) {
      const auto corners = site.corners(item);
      least_m = std::min(least_m, segment_to_item(line.from, line.to, corners).distance);
    }
    const auto near = site.nearest(line);
    ASSERT_TRUE(near.has_value());
    EXPECT_EQ(near->distance_m, least_m) << i;
    expect_same(threaded->nearest(line), near, "on three threads");
  }
}

TEST(Site, TheOrderOfTheFileChangesNoDistance) {
  const Scene scene;
  Corners shuffled = scene.ground;
  std::shuffle(shuffled.begin(), shuffled.end(), std::mt19937_64(23));
  const std::string file = binary_stl(shuffled);
  const Site one = site_of(scene.file), other = site_of(file);
  EXPECT_TRUE(one.in_file_order());
  EXPECT_FALSE(other.in_file_order());
  for (const Capsule& line : scene.lines) EXPECT_EQ(one.nearest(line)->distance_m, other.nearest(line)->distance_m);
  for (const Hull& hull : scene.hulls) EXPECT_EQ(one.nearest(hull)->distance_m, other.nearest(hull)->distance_m);
}

// Hilbert's curve leaves no cell but to one beside it.
TEST(Site, AlongTheCurveEachCellIsBesideTheOneBefore) {
  std::vector<double> at;
  for (int i = 0; i < 512; ++i) at.insert(at.end(), {double(i / 64), double(i / 8 % 8), double(i % 8)});
  const Items items{.coordinates = reinterpret_cast<const std::byte*>(at.data()),
                    .stride = 24,
                    .wide = true,
                    .corners = 1,
                    .count = 512};
  const auto order = along_a_curve(items, {{0, 0, 0}, {7, 7, 7}}, {});
  for (std::size_t i = 1; i < order.size(); ++i)
    EXPECT_EQ(norm(corners_of(items, order[i])[0] - corners_of(items, order[i - 1])[0]), 1) << i;
}

TEST(Site, AMirroredOrMovedSceneHasTheSameDistances) {
  const Scene scene;
  const Site site = site_of(scene.file);
  const Site mirrored = site_of(scene.file, Format::stl, {.y = {0, -1, 0}});
  const Site turned = site_of(scene.file, Format::stl, placed({1000, -500, 30}, 0.7));
  const std::string feet = [&] {
    Corners ground = scene.ground;
    for (auto& triangle : ground)
      for (Point3& p : triangle) p = {p.x * 4, p.y * 4, p.z * 4};
    return binary_stl(ground);
  }();
  const Site quarter = site_of(feet, Format::stl, placed({}, 0, 0.25));
  const auto turn = [](Point3 p) {
    const double c = std::cos(0.7), s = std::sin(0.7);
    return Point3{1000 + c * p.x - s * p.y, -500 + s * p.x + c * p.y, 30 + p.z};
  };
  for (const Capsule& line : scene.lines) {
    const Near near = *site.nearest(line);
    const auto mirror = [](Point3 p) { return Point3{p.x, -p.y, p.z}; };
    EXPECT_EQ(mirrored.nearest(Capsule{mirror(line.from), mirror(line.to), line.radius_m})->distance_m,
              near.distance_m);
    const Near there = *turned.nearest(Capsule{turn(line.from), turn(line.to), line.radius_m});
    EXPECT_NEAR(there.distance_m, near.distance_m, 1e-11);           // coordinates of a thousand, rounded some times
    EXPECT_NEAR(norm(there.on_site - turn(near.on_site)), 0, 1e-6);  // where the least is flat, its place is rough
    EXPECT_NEAR(quarter.nearest(line)->distance_m, near.distance_m, 1e-12);
  }
}

TEST(Site, TheTwoPointsAreOnTheSurfacesAndAsFarApartAsTheyAreSaidToBe) {
  const Scene scene;
  const Site site = site_of(scene.file);
  int met = 0;
  for (std::size_t i = 0; i < scene.lines.size(); i += 5) {
    const Capsule& line = scene.lines[i];
    const Near near = *site.nearest(line);
    EXPECT_NEAR(norm(near.on_shape - near.on_site), near.distance_m, 1e-13 * 150);
    const std::array ends{line.from, line.to};
    const double off = exact_distance(std::span(&near.on_shape, 1), ends);
    EXPECT_LE(off, line.radius_m + 1e-12);
    const auto corners = site.corners(near.item);
    EXPECT_LE(exact_distance(std::span(&near.on_site, 1), corners), 1e-12);
    if (near.meets())
      ++met;
    else
      EXPECT_NEAR(off, line.radius_m, 1e-12);
  }
  EXPECT_GT(met, 3) << "some of the lines reach the ground";
}

// By hand: points of radius 0.1 m at the corners of a unit square, and a line 1 m above one side.
TEST(Site, ACloudsPointsHaveARadius) {
  const std::string file = "0 0 0\n1 0 0\n0 1 0\n1 1 0\n";
  const Site site = site_of(file, Format::xyz, {}, 0.1);
  EXPECT_TRUE(site.is_cloud());
  const Near near = *site.nearest(Capsule{{-5, 0, 1}, {0.25, 0, 1}, 0.2});
  EXPECT_NEAR(near.distance_m, 0.7, 1e-15);
  EXPECT_EQ(near.item, 0u);
  EXPECT_NEAR(norm(near.on_site - Point3{0, 0, 0.1}), 0, 1e-15);
  EXPECT_NEAR(norm(near.on_shape - Point3{0, 0, 0.8}), 0, 1e-15);
  const Near meets = *site.nearest(Capsule{{-5, 0, 0.25}, {0.25, 0, 0.25}, 0.2});
  EXPECT_TRUE(meets.meets());
  EXPECT_NEAR(meets.overlap_m, 0.05, 1e-15);
  EXPECT_EQ(meets.on_shape, meets.on_site);
  const std::vector<Point3> box{{0.4, 0.4, -1}, {0.6, 0.4, -1}, {0.5, 0.6, -1}, {0.5, 0.5, 1}};
  EXPECT_GT(site.nearest(Hull{box})->distance_m, 0.3);
  EXPECT_FALSE(Site::over(bytes_of(file), {.format = Format::xyz}).has_value()) << "a cloud without a radius";
  EXPECT_NEAR(site.bounds().low.x, -0.1, 1e-14);
  EXPECT_NEAR(site.bounds().high.y, 1.1, 1e-14);
}

TEST(Site, AnUnknownShapeIsNeverClear) {
  const Scene scene;
  const Site site = site_of(scene.file);
  const double unknown = std::numeric_limits<double>::quiet_NaN();
  const std::vector<Point3> none;
  for (const double within_m : {3., double(HUGE_VAL), unknown}) {
    const auto line = site.nearest(Capsule{{0, 0, unknown}, {1, 1, 100}}, {.within_m = within_m});
    ASSERT_TRUE(line.has_value());
    EXPECT_TRUE(std::isnan(line->distance_m));
    EXPECT_FALSE(line->meets());
    EXPECT_TRUE(std::isnan(site.nearest(Capsule{{0, 0, 90}, {1, 1, 90}, unknown}, {.within_m = within_m})->distance_m));
    EXPECT_TRUE(std::isnan(site.nearest(Hull{none}, {.within_m = within_m})->distance_m));
  }
  EXPECT_TRUE(site.nearest(Capsule{{0, 0, 90}, {1, 1, 90}}, {.within_m = unknown})->distance_m > 0);
}

TEST(Site, BothBuildsOfTheSearchFindTheSameBits) {
  const Scene scene;
  for (const Making::Order order : {Making::Order::of_the_file, Making::Order::along_a_curve}) {
    const auto mesh = read_mesh(bytes_of(scene.file), Format::stl);
    const Tree as_it_is = *Tree::over(mesh->items, 1e6, {}, {.order = order});
    const Tree any = *Tree::over(mesh->items, 1e6, {}, {.order = order, .processor = Making::Processor::any});
    const auto expect_same_found = [&](std::span<const Point3> shape) {
      const auto one = as_it_is.nearest(shape, {}), other = any.nearest(shape, {});
      EXPECT_EQ(one->distance, other->distance);
      EXPECT_EQ(one->item, other->item);
      EXPECT_EQ(one->on_shape, other->on_shape);
      EXPECT_EQ(one->on_item, other->on_item);
    };
    for (const Capsule& line : scene.lines) expect_same_found(std::array{line.from, line.to});
    for (const auto& rider : scene.riders) expect_same_found(rider);
  }
}

TEST(Site, ABrokenMeshIsToldAndUsedAsItStands) {
  // A square of two triangles; the second again, turned over; a third at its diagonal; one without an area.
  const Point3 a{0, 0, 0}, b{1, 0, 0}, c{1, 1, 0}, d{0, 1, 0}, e{0, 0, 5};
  const std::string file = binary_stl({{a, b, c}, {a, c, d}, {d, c, a}, {a, c, e}, {b, b, d}});
  const Site site = site_of(file);
  ASSERT_TRUE(site.soundness().edges.has_value());
  EXPECT_EQ(site.soundness().items, 5u);
  EXPECT_EQ(site.soundness().flat, 1u);
  EXPECT_EQ(site.soundness().edges->duplicate, 1u);
  EXPECT_EQ(site.soundness().edges->non_manifold, 1u);  // a-c
  EXPECT_EQ(site.soundness().edges->open, 4u);          // a-b, b-c, c-e, e-a
  EXPECT_EQ(site.soundness().edges->inverted, 0u);
  EXPECT_EQ(site.nearest(Capsule{{0, 0, 6}, {0, 0, 7}})->distance_m, 1);
  const std::string inverted = binary_stl({{a, b, c}, {a, d, c}});
  EXPECT_EQ(site_of(inverted).soundness().edges->inverted, 1u);
  auto large = Site::over(bytes_of(file), {.format = Format::stl, .edges_up_to = 4});
  EXPECT_FALSE(large->soundness().edges.has_value()) << "not looked at, and said so";
}

TEST(Site, AFileIsMappedAndWatched) {
  const Scene scene;
  const Scratch folder;
  const std::string path = folder.write("site.stl", scene.file);
  const auto site = Site::open(path, {.format = Format::stl}, {.threads = 2});
  ASSERT_TRUE(site.has_value());
  expect_same(site->nearest(scene.lines[3]), site_of(scene.file).nearest(scene.lines[3]), "of the file");
  EXPECT_TRUE(site->unchanged());
  std::ofstream(path, std::ios::binary | std::ios::app) << "more";
  EXPECT_FALSE(site->unchanged());
  const auto refused = [](const std::string& name, std::size_t most_bytes = 1 << 30) {
    const auto none = Site::open(name, {.format = Format::stl, .most_bytes = most_bytes});
    return none ? "it was opened" : none.error().first[0].message;
  };
  EXPECT_EQ(refused(path, 1000),
            "the file has " + std::to_string(scene.file.size() + 4) + " bytes, and a site at most 1000");
  EXPECT_EQ(refused(path + ".none"), "there is no such file");
  EXPECT_EQ(refused(testing::TempDir()), "this is a directory");
  EXPECT_EQ(refused("/dev/zero"), "this is no file that stays as it is");
  std::ofstream(path, std::ios::binary | std::ios::trunc);
  EXPECT_EQ(refused(path), "the file is empty");
}

TEST(Site, AMeshInMillimetresIsNotBelievedFartherThanAThousandKilometres) {
  const std::string file = binary_stl({{Point3{0, 0, 0}, {1, 0, 0}, {0, 1.5e9, 0}}});
  EXPECT_FALSE(Site::over(bytes_of(file), {.format = Format::stl, .placement = placed({}, 0, 1e-3)}).has_value());
  EXPECT_TRUE(Site::over(bytes_of(file), {.format = Format::stl, .placement = placed({}, 0, 1e-4)}).has_value());
  EXPECT_FALSE(Site::over(bytes_of(file), {.format = Format::stl, .placement = {.x = {1, 1, 0}}}).has_value());
}

TEST(Site, AsFarAsAThousandKilometresInTenthsOfMillimetresTheNearestIsFound) {
  Draws draws{std::mt19937_64(24)};
  Corners triangles;
  for (int i = 0; i < 400; ++i) {
    const Point3 at{draws.any(-9e9, 9e9), draws.any(-9e9, 9e9), draws.any(-1e9, 1e9)};
    triangles.push_back({at, at + draws.any(0, 1e8) * Vec3{1, 0, 0.5}, at + draws.any(0, 1e8) * Vec3{0, 1, 0.25}});
  }
  const std::string file = binary_ply(triangles);
  const Site site = site_of(file, Format::ply, placed({}, 0, 1e-4));
  for (int i = 0; i < 40; ++i) {
    // So far off that the square of the distance's square is beyond a float.
    const auto place = [&] { return Point3{draws.any(-1e6, 1e6), draws.any(-1e6, 1e6), draws.any(9e5, 1e6)}; };
    const Capsule line{place(), place()};
    const auto raw = [](Point3 p) { return Point3{p.x / 1e-4, p.y / 1e-4, p.z / 1e-4}; };
    double least = HUGE_VAL;
    for (const auto& triangle : triangles)
      least = std::min(least, segment_to_item(raw(line.from), raw(line.to), triangle).distance);
    EXPECT_NEAR(site.nearest(line)->distance_m, 1e-4 * least, 1e-9);  // of a thousand kilometres
  }
}

}  // namespace
}  // namespace fairlead::sites

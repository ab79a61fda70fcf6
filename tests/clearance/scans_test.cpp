// What is scanned is as near as the solid that was scanned.
#include <gtest/gtest.h>

#include <array>
#include <cstring>

#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

/// A binary STL of triangles.
std::vector<std::byte> stl(const std::vector<std::array<Point3, 3>>& triangles) {
  std::vector<std::byte> bytes(84 + 50 * triangles.size());
  const auto count = static_cast<std::uint32_t>(triangles.size());
  std::memcpy(bytes.data() + 80, &count, 4);
  std::byte* at = bytes.data() + 84;
  for (const auto& triangle : triangles) {
    at += 12;
    for (const Point3& p : triangle)
      for (const double c : {p.x, p.y, p.z}) {
        const auto narrow = static_cast<float>(c);
        std::memcpy(at, &narrow, 4);
        at += 4;
      }
    at += 2;
  }
  return bytes;
}

/// A site and the bytes it looks at.
struct Scanned {
  std::vector<std::byte> bytes;
  sites::Site site;
};
std::shared_ptr<const sites::Site> scanned(std::vector<std::byte> bytes, const sites::Description& description) {
  auto site = sites::Site::over(bytes, description);
  if (!site) throw std::runtime_error(site.error().first.front().message);
  auto both = std::make_shared<Scanned>(Scanned{std::move(bytes), std::move(*site)});
  return {both, &both->site};
}

/// Two triangles a side, coordinates from the box's centre, so that float holds them.
std::shared_ptr<const sites::Site> scan_of(const Box& box) {
  std::vector<std::array<Point3, 3>> triangles;
  const Vec3 h = box.half_m;
  for (const double s : {-1., 1.}) {
    const auto side = [&](auto corner) {
      triangles.push_back({corner(-1, -1), corner(1, -1), corner(1, 1)});
      triangles.push_back({corner(-1, -1), corner(1, 1), corner(-1, 1)});
    };
    side([&](int a, int b) { return Point3{s * h.x, a * h.y, b * h.z}; });
    side([&](int a, int b) { return Point3{a * h.x, s * h.y, b * h.z}; });
    side([&](int a, int b) { return Point3{a * h.x, b * h.y, s * h.z}; });
  }
  return scanned(stl(triangles), {.format = sites::Format::stl, .placement = sites::placed(box.centre)});
}

Clearances solved(const Scene& scene, int poses = 24) {
  auto told = solve(scene.in, scene.rig, scene.passage(poses));
  if (!told) throw std::runtime_error(told.error().why);
  return std::move(*told);
}

const Box beside{.centre = {197, 2.5, 18}, .half_m = {1.5, 0.75, 3}};

TEST(Scans, AreAsNearAsTheSolidThatWasScanned) {
  for (const bool swings : {false, true}) {
    Scene scene;
    if (swings) {
      scene.rig.sweeps[0].running = reeving::Running::paying_out;
      scene.in.swing = Swing{.leans = {{-0.4, 0.6}}, .sideways_rad = 0.1};
    }
    scene.in.structures = {{beside, {}}, {beside, scan_of(beside)}};
    const Clearances told = solved(scene);
    for (const Thing& thing : {rider, line(0), line(1), line(2), block(0)}) {
      const Gap solid = *find_gap(told, thing, structure(0)), scan = *find_gap(told, thing, structure(1));
      // Both searches stop within the resolution of the least.
      const double open_m = scene.in.resolution_m * std::max(1., solid.least_m.value);
      EXPECT_NEAR(scan.least_m.value, solid.least_m.value, open_m) << static_cast<int>(thing.kind) << thing.index;
      EXPECT_LE(scan.least_m.bound, solid.least_m.value);
      EXPECT_GE(scan.least_m.bound, solid.least_m.bound - open_m);
    }
  }
}

TEST(Scans, NoInstantIsNearerThanTheBoundBetweenPoses) {
  Scene scene;
  scene.in.structures = {{beside, scan_of(beside)},
                         {Plane{}, scan_of({.centre = {193, 0, 15}, .half_m = {0.3, 0.3, 2}})}};
  const Clearances told = solved(scene, 12);
  const std::vector<double> least_m = scene.brute_force(400);
  ASSERT_EQ(told.gaps.size(), least_m.size());
  for (std::size_t i = 0; i < told.gaps.size(); ++i) EXPECT_GE(least_m[i], told.gaps[i].least_m.bound - 1e-9) << i;
}

TEST(Scans, OfPointsAreBalls) {
  Scene scene;
  std::string points = "197 1.75 16\n197 1.75 17\n";
  std::vector<std::byte> bytes(points.size());
  std::memcpy(bytes.data(), points.data(), points.size());
  const auto cloud = [&](double radius_m) {
    scene.in.structures = {{Plane{}, scanned(bytes, {.format = sites::Format::xyz, .point_radius_m = radius_m})}};
    return find_gap(solved(scene), rider, structure(0))->least_m.value;
  };
  EXPECT_NEAR(cloud(0.25), 1.75 - 0.25 - 1.05, 1e-9) << "the envelope is 2.1 m wide";
  EXPECT_NEAR(cloud(0.25) - cloud(0.5), 0.25, 1e-9);
}

TEST(Scans, OfWhatALineIsTiedToAreLeftOutBesideTheKnot) {
  Scene scene;
  const Point3 end = scene.rig.lines[2].to.at;  // of the support line, on its mast
  scene.in.structures = {{Plane{}, scan_of({.centre = end + Vec3{0.45, 0, 0}, .half_m = {0.25, 0.25, 4}})}};
  const Clearances told = solved(scene);
  EXPECT_TRUE(std::any_of(told.excluded.begin(), told.excluded.end(), [](const Exclusion& e) {
    return e.a == line(2) && e.b == structure(0) && e.why == Why::tied_there && e.within_m == 0.3;
  }));
  const double gap_m = find_gap(told, line(2), structure(0))->least_m.value;
  EXPECT_GT(gap_m, 0.2 + 0.25) << "0.2 m from the knot to the mast's face, and 0.3 m of the line left out";
  EXPECT_LT(gap_m, 0.2 + 0.3);
}

TEST(Scans, MeetWhereTheRiderWouldStrikeThem) {
  Scene scene;
  scene.in.structures = {{Plane{}, scan_of({.centre = {200, 0, 18}, .half_m = {0.1, 0.1, 3}})}};
  EXPECT_LE(find_gap(solved(scene), rider, structure(0))->least_m.value, 0);
}

}  // namespace
}  // namespace fairlead::clearance

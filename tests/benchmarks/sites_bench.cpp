// What a site of a million triangles costs: opening, and distances from it. sites_ratios.cpp compares with others.
#include <benchmark/benchmark.h>

#include "tests/benchmarks/sites_scene.hpp"

namespace fairlead::sites::bench {
namespace {

std::span<const std::byte> bytes_of(const std::string& file) {
  return {reinterpret_cast<const std::byte*>(file.data()), file.size()};
}

struct Ground {
  std::string file = ground(1e6);
  Site site = *Site::over(bytes_of(file), {.format = Format::stl});
};
const Ground& million() {
  static const Ground made;
  return made;
}

void open_million_triangles(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(Site::over(bytes_of(million().file), {.format = Format::stl}));
}
BENCHMARK(open_million_triangles);

void open_million_triangles_in_no_order(benchmark::State& state) {
  const std::string file = ground(1e6, true);
  for (auto _ : state) benchmark::DoNotOptimize(Site::over(bytes_of(file), {.format = Format::stl}));
}
BENCHMARK(open_million_triangles_in_no_order);

void lines_of_200_poses(benchmark::State& state) {
  const auto shapes = lines();
  for (auto _ : state) benchmark::DoNotOptimize(million().site.nearest_of_each(shapes, per_pose, HUGE_VAL, {}));
}
BENCHMARK(lines_of_200_poses);

void lines_of_200_poses_within_3_m(benchmark::State& state) {
  const auto shapes = lines();
  for (auto _ : state) benchmark::DoNotOptimize(million().site.nearest_of_each(shapes, per_pose, 3, {}));
}
BENCHMARK(lines_of_200_poses_within_3_m);

void riders_of_200_poses(benchmark::State& state) {
  const auto boxes = riders();
  std::vector<Hull> shapes;
  for (const auto& box : boxes) shapes.push_back({box});
  for (auto _ : state) benchmark::DoNotOptimize(million().site.nearest_of_each(shapes, per_pose, HUGE_VAL, {}));
}
BENCHMARK(riders_of_200_poses);

}  // namespace
}  // namespace fairlead::sites::bench

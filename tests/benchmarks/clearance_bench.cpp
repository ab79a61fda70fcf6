// What the clearances cost: a 2:1 on a support line among six structures, four passages of 150 poses.
#include <benchmark/benchmark.h>

#include "geometry/solids/distance.hpp"
#include "tests/clearance/scene.hpp"

namespace fairlead::clearance {
namespace {

void segment_to_box(benchmark::State& state) {
  const Box box{.centre = {0, 0, 0}, .half_m = {1, 1, 1}};
  Segment s{{-3, 0.5, 2}, {3, 1, 4}};
  for (auto _ : state) {
    s.from.x = s.from.x > 3 ? -3 : s.from.x + 0.01;
    benchmark::DoNotOptimize(nearest(s, box));
  }
}
BENCHMARK(segment_to_box);

void segment_to_post(benchmark::State& state) {
  const Post post{{0, 0, -1}, {0.1, 0, 1}, 0.2};
  Segment s{{-3, 0.5, 2}, {3, 1, 4}};
  for (auto _ : state) {
    s.from.x = s.from.x > 3 ? -3 : s.from.x + 0.01;
    benchmark::DoNotOptimize(nearest(s, post));
  }
}
BENCHMARK(segment_to_post);

void box_to_post(benchmark::State& state) {
  const Post post{{0, 0, -1}, {0.1, 0, 1}, 0.2};
  Box box{.centre = {-3, 2, 2}, .half_m = {1.2, 1, 1.2}};
  for (auto _ : state) {
    box.centre.x = box.centre.x > 3 ? -3 : box.centre.x + 0.01;
    benchmark::DoNotOptimize(nearest(box, post));
  }
}
BENCHMARK(box_to_post);

void every_pair_of_a_layout(benchmark::State& state) {
  Scene scene;
  scene.in.structures = {{Post{{180, 2.5, 0}, {180, 2.5, 24}, 0.15}},
                         {Box{.centre = {207, 0, 16}, .half_m = {9, 2, 0.2}}, {}, true, true, false},
                         {Plane{{200, 0, 10}, unit(Vec3{-0.05, 0, 1})}},
                         {Post{{196, -1.3, 0}, {196, -1.3, 24}, 0.15}},
                         {Post{{204, 1.4, 0}, {204, 1.4, 24}, 0.15}},
                         {Box{.centre = {186, 0, 26}, .half_m = {0.1, 3, 0.1}}}};
  scene.in.unit = Box{.centre = {219.3, 0.1, 21.5}, .half_m = {0.3, 0.3, 0.3}};
  scene.in.sweeps = {0, 0, 0, 0};
  const reeving::Reeving reeving = scene.passage(150);
  for (auto _ : state) benchmark::DoNotOptimize(solve(scene.in, scene.rig, reeving));
}
BENCHMARK(every_pair_of_a_layout)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace fairlead::clearance

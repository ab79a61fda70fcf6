// What riders on their way and their stop cost: the demo's corners.
#include <benchmark/benchmark.h>

#include "geometry/rig/rig.hpp"
#include "tests/shipped_layouts.hpp"

namespace fairlead::arrest {
namespace {

const Rig& demo() {
  // Its tension known to what a dynamometer is good for doubles the main line's states: 128 corners.
  static const Rig rig =
      fairlead::solve(shipped_layout("sable_weir.toml", {{"main_line.tension", R"(["17.6 kN", "18.4 kN"])"}}));
  return rig;
}

/// From contact to rest, one corner after the other.
void one_corner(benchmark::State& state) {
  const Inputs& in = *demo().arrest.inputs;
  const Approaches& approaches = *demo().approach.solved();
  std::vector<Track> tracks(demo().main_line.solved()->paths.size());
  for (const Corner& corner : approaches.corners)
    tracks[static_cast<std::size_t>(corner.path)] =
        *track_of(in, corner.path, *demo().reeving.inputs, *demo().reeving.solved());
  std::size_t c = 0;
  for (auto _ : state) {
    c = (c + 1) % approaches.corners.size();
    const Corner& corner = approaches.corners[c];
    benchmark::DoNotOptimize(solve_motion(
        tracks[static_cast<std::size_t>(corner.path)], bodies_of(in, corner, in.air_kg_per_m3.front()),
        unit_of(in, corner),
        {.speed_m_per_s = approaches.speed_m_per_s[c], .acceleration_m_per_s2 = approaches.acceleration_m_per_s2(c)}));
  }
}
BENCHMARK(one_corner);

void every_approach(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(solve_approaches(*demo().approach.inputs, *demo().main_line.solved(), {.threads = 2}));
}
BENCHMARK(every_approach)->Unit(benchmark::kMillisecond)->UseRealTime();

/// With the backup brake alone, the way back, and how far from its mark the trolley may be left.
void every_corner(benchmark::State& state) {
  for (auto _ : state)
    benchmark::DoNotOptimize(solve(*demo().arrest.inputs, *demo().approach.solved(), *demo().main_line.solved(),
                                   *demo().reeving.inputs, *demo().reeving.solved(), {.threads = 2}));
  state.counters["corners"] = static_cast<double>(demo().approach.solved()->corners.size());
}
BENCHMARK(every_corner)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
}  // namespace fairlead::arrest

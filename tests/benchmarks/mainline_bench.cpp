// What the main line costs: the worked line of 220 m, a wheel that moves on by a metre a call.
#include <benchmark/benchmark.h>

#include "geometry/mainline/states.hpp"
#include "tests/mainline/worked_line.hpp"

namespace fairlead::mainline {
namespace {

/// The next place of a wheel that runs over the line and starts again.
double on(double x_m) { return x_m > 180 ? 10 : x_m + 1; }

void bare_line(benchmark::State& state) {
  Cable line = worked_line();
  const double taut_m = line.unstretched_m;
  for (auto _ : state) {
    line.unstretched_m = line.unstretched_m > taut_m + 0.5 ? taut_m : line.unstretched_m + 1e-3;
    benchmark::DoNotOptimize(hang(line));
  }
}
BENCHMARK(bare_line);

void clamped_load(benchmark::State& state, bool warm) {
  const Cable line = worked_line();
  double s_m = 10;
  Shape near = hang_clamped(line, s_m, weight_of(80)).value();
  for (auto _ : state) {
    const auto shape = hang_clamped(line, s_m = on(s_m), weight_of(80), warm ? &near : nullptr);
    benchmark::DoNotOptimize(near = *shape);
  }
}
BENCHMARK_CAPTURE(clamped_load, cold, false);
BENCHMARK_CAPTURE(clamped_load, warm, true);

void rolling_load(benchmark::State& state, bool warm) {
  const Cable line = worked_line();
  Load load{10, weight_of(80)};
  Shape near = hang_rolling(line, {&load, 1}).value();
  for (auto _ : state) {
    load.x_m = on(load.x_m);
    const auto shape = hang_rolling(line, {&load, 1}, warm ? &near : nullptr);
    benchmark::DoNotOptimize(near = *shape);
  }
}
BENCHMARK_CAPTURE(rolling_load, cold, false);
BENCHMARK_CAPTURE(rolling_load, warm, true);

void rider_and_trolley(benchmark::State& state, bool warm) {
  const Cable line = worked_line();
  Load loads[] = {{10, weight_of(80)}, {188, weight_of(4)}};
  Shape near = hang_rolling(line, loads).value();
  for (auto _ : state) {
    loads[0].x_m = on(loads[0].x_m);
    const auto shape = hang_rolling(line, loads, warm ? &near : nullptr);
    benchmark::DoNotOptimize(near = *shape);
  }
}
BENCHMARK_CAPTURE(rider_and_trolley, cold, false);
BENCHMARK_CAPTURE(rider_and_trolley, warm, true);

void length_by_sag(benchmark::State& state) {
  const Cable line = worked_line();
  for (auto _ : state) benchmark::DoNotOptimize(length_from_sag(220, -14, line.weight_N_per_m, 1 / 11e6, 4.2));
}
BENCHMARK(length_by_sag);

void length_by_tension(benchmark::State& state) {
  const Cable line = worked_line();
  for (auto _ : state)
    benchmark::DoNotOptimize(length_from_tension(220, -14, line.weight_N_per_m, 1 / 11e6, 15e3, MeasuredAt::end));
}
BENCHMARK(length_by_tension);

void path_of_200_knots(benchmark::State& state) {
  const Cable line = worked_line();
  for (auto _ : state) benchmark::DoNotOptimize(Path::solve(line, weight_of(80), 5, 215, 200));
}
BENCHMARK(path_of_200_knots);

void path_of_200_knots_toward_a_trolley(benchmark::State& state) {
  const Cable line = worked_line();
  const Load trolley{188, weight_of(4)};
  for (auto _ : state) benchmark::DoNotOptimize(Path::solve(line, weight_of(80), 5, 188 - meeting_m, 200, trolley));
}
BENCHMARK(path_of_200_knots_toward_a_trolley);

void driving_force_on_a_path(benchmark::State& state) {
  const Path path = path_of(worked_line(), 80);
  double x_m = 10;
  for (auto _ : state) benchmark::DoNotOptimize(path.drive_force_N(x_m = on(x_m)));
}
BENCHMARK(driving_force_on_a_path);

void every_state(benchmark::State& state) {
  Inputs in;
  in.span_m = 220;
  in.rise_m = -14;
  in.mass_kg_per_m = 1.05;
  in.compliance_per_N = {1 / 12e6, 1 / 10e6};
  in.expansion_per_K = 11.5e-6;
  in.known = Inputs::Known::tension;
  in.measure = {14.5e3, 15.5e3};
  in.measured_at = MeasuredAt::start;
  in.measured_K = 288;
  in.coldest_K = 263;
  in.warmest_K = 313;
  in.empty_kg = 4;
  in.lightest_kg = 36.5;
  in.heaviest_kg = 126.5;
  in.path_from_m = 100;
  in.path_to_m = 210;
  for (auto _ : state) benchmark::DoNotOptimize(solve(in));
}
BENCHMARK(every_state);

}  // namespace
}  // namespace fairlead::mainline

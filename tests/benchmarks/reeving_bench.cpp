// What the braking line costs: the worked rig and a skew one, a trolley that moves on by a few centimetres a call.
#include <benchmark/benchmark.h>

#include "geometry/reeving/between.hpp"
#include "tests/reeving/reductions.hpp"

namespace fairlead::reeving {
namespace {

void hanging_leg(benchmark::State& state) {
  double tension_N = 45;
  for (auto _ : state) {
    tension_N = tension_N > 60 ? 45 : tension_N + 0.01;
    benchmark::DoNotOptimize(hang_leg({28, 3, 4}, tension_N, 1.2));
  }
}
BENCHMARK(hanging_leg);

void leg_with_its_contacts(benchmark::State& state) {
  const Inputs in = skew_rig();
  const LegEnd from = leaving(in.sheaves[0]), to = arriving(in.sheaves[1]);
  Tension tension{60, in.outlet().z, in.lines[0].weight_N_per_m};
  MetLeg near = *meet(from, to, tension);
  for (auto _ : state) {
    tension.at_N = tension.at_N > 90 ? 60 : tension.at_N + 0.1;
    near = *meet(from, to, tension, &near);
    benchmark::DoNotOptimize(near);
  }
}
BENCHMARK(leg_with_its_contacts);

/// One pose after another, each from the one before.
void pose(benchmark::State& state, const Inputs& in, int sweep) {
  const Outlet outlet = outlet_of(in, sweep);
  const SweepInputs& s = in.sweeps[static_cast<std::size_t>(sweep)];
  Station near = *solve_pose(in, s, outlet, 0);
  for (auto _ : state) {
    const double travel_m = near.pose.travel_m;
    const bool solved = solve_pose(in, s, outlet, travel_m > 14 ? 0 : travel_m + 0.05, near).has_value();
    benchmark::DoNotOptimize(solved);
    benchmark::DoNotOptimize(near);
  }
}
BENCHMARK_CAPTURE(pose, at_rest, worked_rig(), 3);
BENCHMARK_CAPTURE(pose, paying_out, worked_rig(), 4);
BENCHMARK_CAPTURE(pose, skew_at_rest, skew_rig(), 3);
BENCHMARK_CAPTURE(pose, two_to_one_at_rest, two_to_one(), 3);
BENCHMARK_CAPTURE(pose, three_to_one_at_rest, three_to_one(), 3);
BENCHMARK_CAPTURE(pose, four_to_one_at_rest, four_to_one(), 3);
BENCHMARK_CAPTURE(pose, two_to_one_floating_at_rest, two_to_one_floating(), 3);

/// The worked rig with its redirect on a link of 0.3 m.
Inputs free_redirect() {
  Inputs in = worked_rig();
  in.sheaves[0].body = 0;
  in.blocks = {{.drawn = in.sheaves[0].centre + Vec3{-0.3, 0.02, 0.1},
                .centre_of_mass = in.sheaves[0].centre,
                .weight_N = 25,
                .joint = Joint::ball}};
  return in;
}
BENCHMARK_CAPTURE(pose, free_redirect_at_rest, free_redirect(), 3);

/// The same with every sheave rubbing.
void rubbing_pose(benchmark::State& state, const Inputs& in) {
  SweepInputs sweep = in.sweeps[3];
  sweep.friction = Friction::returning;
  const Outlet outlet = rubbing(in, sweep, outlet_of(in, 3), 1.06);
  Station near = *solve_pose(in, sweep, outlet, 0);
  for (auto _ : state) {
    const double travel_m = near.pose.travel_m;
    const bool solved = solve_pose(in, sweep, outlet, travel_m > 14 ? 0 : travel_m + 0.05, near).has_value();
    benchmark::DoNotOptimize(solved);
    benchmark::DoNotOptimize(near);
  }
}
BENCHMARK_CAPTURE(rubbing_pose, one_to_one, worked_rig());
BENCHMARK_CAPTURE(rubbing_pose, two_to_one, two_to_one());
BENCHMARK_CAPTURE(rubbing_pose, free_redirect, free_redirect());

/// With no neighbour to go on from.
void pose_from_the_drawing(benchmark::State& state, const Inputs& in) {
  const Outlet outlet = outlet_of(in, 3);
  for (auto _ : state) benchmark::DoNotOptimize(solve_pose(in, in.sweeps[3], outlet, 2));
}
BENCHMARK_CAPTURE(pose_from_the_drawing, three_to_one, three_to_one());
BENCHMARK_CAPTURE(pose_from_the_drawing, two_to_one_floating, two_to_one_floating());

void bounds_between_two_poses(benchmark::State& state, const Inputs& in) {
  const Outlet outlet = outlet_of(in, 3);
  const auto a = solve_pose(in, in.sweeps[3], outlet, 2), b = solve_pose(in, in.sweeps[3], outlet, 2.1);
  for (auto _ : state) benchmark::DoNotOptimize(between(in, in.sweeps[3], outlet, *a, *b));
}
BENCHMARK_CAPTURE(bounds_between_two_poses, skew, skew_rig());
BENCHMARK_CAPTURE(bounds_between_two_poses, two_to_one, two_to_one());
BENCHMARK_CAPTURE(bounds_between_two_poses, two_to_one_floating, two_to_one_floating());
BENCHMARK_CAPTURE(bounds_between_two_poses, three_to_one, three_to_one());
BENCHMARK_CAPTURE(bounds_between_two_poses, free_redirect, free_redirect());

/// As many sweeps as a layout of four states has: each empty, and with two riders at rest and paying out.
void every_sweep_of_a_layout(benchmark::State& state) {
  Inputs in = worked_rig();
  const auto sweeps = in.sweeps;
  for (int i = 0; i < 3; ++i) in.sweeps.insert(in.sweeps.end(), sweeps.begin(), sweeps.end());
  for (auto _ : state) benchmark::DoNotOptimize(solve(in));
}
BENCHMARK(every_sweep_of_a_layout)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace fairlead::reeving

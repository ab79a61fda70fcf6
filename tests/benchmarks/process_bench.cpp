// What the program costs as a process, from its start to its end: processor time of both threads, by the clock, and
// peak memory.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "tests/benchmarks/sites_scene.hpp"

namespace {

double seconds(timeval t) { return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec); }

void process(benchmark::State& state, std::vector<std::string> arguments) {
  std::vector<char*> argv;
  for (std::string& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  double peak_MiB = 0, clock_s = 0;
  for (auto _ : state) {
    const auto begin = std::chrono::steady_clock::now();
    pid_t child = 0;
    rusage used{};
    int status = 0;
    if (posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ) != 0 ||
        wait4(child, &status, 0, &used) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
      state.SkipWithError("the program did not end well");
      break;
    }
    clock_s += std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    state.SetIterationTime(seconds(used.ru_utime) + seconds(used.ru_stime));
    peak_MiB = std::max(peak_MiB, static_cast<double>(used.ru_maxrss) / 1024);
  }
  posix_spawn_file_actions_destroy(&actions);
  state.counters["peak_MiB"] = peak_MiB;
  state.counters["clock_s"] = benchmark::Counter(clock_s, benchmark::Counter::kAvgIterations);
}

const std::string program = FAIRLEAD_PROGRAM, layout = FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml";

/// The demo rig a metre or two above a scan of a square kilometre of so many triangles.
void check_over_a_scan(benchmark::State& state) {
  const std::string directory = FAIRLEAD_SCRATCH "/", over = directory + "over_a_scan.toml";
  std::ofstream(directory + "ground.stl", std::ios::binary)
      << fairlead::sites::bench::ground(static_cast<double>(state.range(0)));
  std::stringstream text;
  text << std::ifstream(layout).rdbuf();
  std::string told = text.str();
  told.insert(told.find("[limits]"), R"([[structure]]
id = "ground"
kind = "scan"
file = "ground.stl"
unit = "m"
origin = [788.000, 366.000, 319.300]

)");
  const std::string limits = "[limits]\n";
  told.insert(told.find(limits) + limits.size(), R"(rider_clearance = { at = "0.5 m", basis = "own rule" }
line_clearance = { at = "0.5 m", basis = "own rule" }
)");
  std::ofstream(over) << told;
  process(state, {program, "check", over});
}

BENCHMARK_CAPTURE(process, check, {program, "check", layout})->UseManualTime()->Unit(benchmark::kNanosecond);
BENCHMARK_CAPTURE(process, check_json, {program, "check", layout, "--format", "json"})->UseManualTime();
BENCHMARK_CAPTURE(process, draw, {program, "draw", layout, "-o", FAIRLEAD_SCRATCH "/sheet.pdf"})->UseManualTime();
// Last: a process starts with the peak of the one that starts it, and these make large files.
BENCHMARK(check_over_a_scan)->Arg(1'000'000)->Arg(10'000'000)->UseManualTime()->Unit(benchmark::kNanosecond);

}  // namespace

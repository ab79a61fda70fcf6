// What the program costs as a process, from its start to its end: processor time of both threads, and peak memory.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <string>
#include <vector>

namespace {

double seconds(timeval t) { return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec); }

void process(benchmark::State& state, std::vector<std::string> arguments) {
  std::vector<char*> argv;
  for (std::string& argument : arguments) argv.push_back(argument.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  double peak_MiB = 0;
  for (auto _ : state) {
    pid_t child = 0;
    rusage used{};
    int status = 0;
    if (posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ) != 0 ||
        wait4(child, &status, 0, &used) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
      state.SkipWithError("the program did not end well");
      break;
    }
    state.SetIterationTime(seconds(used.ru_utime) + seconds(used.ru_stime));
    peak_MiB = std::max(peak_MiB, static_cast<double>(used.ru_maxrss) / 1024);
  }
  posix_spawn_file_actions_destroy(&actions);
  state.counters["peak_MiB"] = peak_MiB;
}

const std::string program = FAIRLEAD_PROGRAM, layout = FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml";

BENCHMARK_CAPTURE(process, check, {program, "check", layout})->UseManualTime()->Unit(benchmark::kNanosecond);
BENCHMARK_CAPTURE(process, check_json, {program, "check", layout, "--format", "json"})->UseManualTime();
BENCHMARK_CAPTURE(process, draw, {program, "draw", layout, "-o", FAIRLEAD_SCRATCH "/sheet.pdf"})->UseManualTime();

}  // namespace

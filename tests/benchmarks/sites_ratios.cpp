// Ours beside CGAL and, where it is installed, FCL, on the same meshes and lines in one process: the ratios of
// processor time. Then ours as a process of its own on two threads, by the clock.
//
//     sites_ratios [TRIANGLES ...]      10000 and 1000000 unless told; 10000000 takes minutes and 9 GiB
#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "tests/benchmarks/sites_peers.hpp"
#include "tests/benchmarks/sites_scene.hpp"

namespace {

using namespace fairlead;
using namespace fairlead::sites;
using namespace fairlead::sites::bench;

Times ours(const std::string& path, const std::vector<Capsule>& shapes, bool from_the_pose_before) {
  Times times;
  double before = processor_s();
  const auto site = Site::open(path, {.format = Format::stl});
  times.build_s = processor_s() - before;
  before = processor_s();
  const auto near = site->nearest_of_each(shapes, from_the_pose_before ? per_pose : shapes.size(), HUGE_VAL, {});
  times.query_s = (processor_s() - before) / static_cast<double>(shapes.size());
  for (const auto& one : near) times.sum_m += one->distance_m;
  return times;
}

/// This program again, which opens the file and finds all distances: seconds by the clock, and its peak memory.
void print_process(const std::string& path) {
  std::string self = "/proc/self/exe", what = "--process", file = path;
  char* argv[] = {self.data(), what.data(), file.data(), nullptr};
  double least = HUGE_VAL;
  double processor = HUGE_VAL;
  long peak_KiB = 0;
  for (int i = 0; i < 5; ++i) {
    const auto begin = std::chrono::steady_clock::now();
    pid_t child = 0;
    rusage used{};
    int status = 0;
    if (posix_spawn(&child, self.c_str(), nullptr, nullptr, argv, environ) != 0 ||
        wait4(child, &status, 0, &used) != child || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
      std::puts("the process did not end well");
      return;
    }
    least = std::min(least, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
    const auto seconds = [](timeval t) {
      return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
    };
    processor = std::min(processor, seconds(used.ru_utime) + seconds(used.ru_stime));
    peak_KiB = std::max(peak_KiB, used.ru_maxrss);
  }
  fmt::print("  process, 2 threads   {:8.1f} ms by the clock, {:.1f} ms of processors, {} MiB\n", 1e3 * least,
             1e3 * processor, peak_KiB / 1024);
}

void print_times(const char* name, const Times& t) {
  fmt::print("  {:<20} read {:9.2f} ms, build {:9.2f} ms, query {:10.2f} us, mean distance {:.6f} m\n", name,
             1e3 * t.read_s, 1e3 * t.build_s, 1e6 * t.query_s, t.sum_m / static_cast<double>(t.queries));
}

void compare(double triangles, const std::string& path) {
  const auto shapes = lines();
  std::ofstream(path, std::ios::binary) << ground(triangles);
  fmt::print("{:.0f} triangles, {} distances\n", triangles, shapes.size());
  Times cold = ours(path, shapes, false), mine = ours(path, shapes, true);
  cold.queries = mine.queries = shapes.size();
  print_times("ours, each alone", cold);
  print_times("ours, pose by pose", mine);
  print_process(path);
  const Times theirs = cgal(path, shapes, triangles > 1e5 ? 22 : 220);
  print_times("CGAL", theirs);
  const auto all = [&](const Times& t) {
    return t.read_s + t.build_s + t.query_s * static_cast<double>(shapes.size());
  };
  fmt::print("  CGAL / ours          reading and building {:.0f}, query {:.0f} ({:.0f} alone), in all {:.0f}\n",
             (theirs.read_s + theirs.build_s) / mine.build_s, theirs.query_s / mine.query_s,
             theirs.query_s / cold.query_s, all(theirs) / all(mine));
#ifdef FAIRLEAD_FCL
  const Times others = fcl(path, shapes);
  print_times("FCL", others);
  fmt::print("  FCL / ours           building {:.0f}, query {:.1f} ({:.1f} alone), in all {:.0f}\n",
             others.build_s / mine.build_s, others.query_s / mine.query_s, others.query_s / cold.query_s,
             all(others) / all(mine));
#endif
  std::remove(path.c_str());
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 3 && std::string(argv[1]) == "--process") {
    const Work work{.threads = 2};
    const auto site = Site::open(argv[2], {.format = Format::stl}, work);
    return site && site->nearest_of_each(lines(), per_pose, HUGE_VAL, work).size() == lines().size() ? 0 : 1;
  }
  const std::string path = std::string(FAIRLEAD_SCRATCH) + "/sites_ratios.stl";
  if (argc == 1)
    for (const double triangles : {1e4, 1e6}) compare(triangles, path);
  for (int i = 1; i < argc; ++i) compare(std::strtod(argv[i], nullptr), path);
  return 0;
}

// Other libraries on the same work: the seconds of processor time each takes.
#pragma once

#include <ctime>
#include <string>
#include <vector>

#include "geometry/sites/site.hpp"

namespace fairlead::sites::bench {

inline double processor_s() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

struct Times {
  double read_s{}, build_s{}, query_s{};  ///< query: of one
  double sum_m{};                         ///< of the distances
  std::size_t queries{};
};

/// Its AABB tree, from points every 0.5 m of the line, for it has no distance of a segment: never less than the exact
/// one. `queries`: how many of the lines, evenly.
Times cgal(const std::string& path, const std::vector<Capsule>&, std::size_t queries);
/// Boxes of any attitude over the mesh, against the line as a flat triangle.
Times fcl(const std::string& path, const std::vector<Capsule>&);

}  // namespace fairlead::sites::bench

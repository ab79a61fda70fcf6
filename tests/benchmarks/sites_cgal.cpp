#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Simple_cartesian.h>

#include <array>

#include "tests/benchmarks/sites_peers.hpp"

namespace fairlead::sites::bench {

Times cgal(const std::string& path, const std::vector<Capsule>& lines, std::size_t queries) {
  using Kernel = CGAL::Simple_cartesian<double>;
  using Iterator = std::vector<Kernel::Triangle_3>::const_iterator;
  using Tree = CGAL::AABB_tree<CGAL::AABB_traits<Kernel, CGAL::AABB_triangle_primitive<Kernel, Iterator>>>;
  Times times;
  double before = processor_s();
  const auto lap = [&] {
    const double now = processor_s(), taken = now - before;
    before = now;
    return taken;
  };
  std::vector<Kernel::Point_3> points;
  std::vector<std::array<std::size_t, 3>> faces;
  CGAL::IO::read_STL(path, points, faces);
  times.read_s = lap();
  std::vector<Kernel::Triangle_3> triangles;
  for (const auto& face : faces) triangles.emplace_back(points[face[0]], points[face[1]], points[face[2]]);
  Tree tree(triangles.begin(), triangles.end());
  tree.do_not_accelerate_distance_queries();
  tree.build();
  times.build_s = lap();
  times.queries = std::min(queries, lines.size());
  for (std::size_t q = 0; q < times.queries; ++q) {
    const Capsule& line = lines[q * lines.size() / times.queries];
    const Vec3 run = line.to - line.from;
    const int steps = static_cast<int>(std::ceil(norm(run) / 0.5));
    double least2 = HUGE_VAL;
    for (int i = 0; i <= steps; ++i) {
      const Point3 p = line.from + (static_cast<double>(i) / steps) * run;
      least2 = std::min(least2, tree.squared_distance({p.x, p.y, p.z}));
    }
    times.sum_m += std::sqrt(least2);
  }
  times.query_s = lap() / static_cast<double>(times.queries);
  return times;
}

}  // namespace fairlead::sites::bench

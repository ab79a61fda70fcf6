// The only file of these tests that includes CGAL.
#include "tests/sites/oracle.hpp"

#include <CGAL/Cartesian.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Gmpq.h>
#include <CGAL/Polytope_distance_d.h>
#include <CGAL/Polytope_distance_d_traits_3.h>
#include <CGAL/squared_distance_3.h>

#include <vector>

namespace fairlead::sites {

using Rational = CGAL::Cartesian<CGAL::Gmpq>;
using Exact = CGAL::Exact_predicates_exact_constructions_kernel;
// Its numbers are rational from the start: of doubles it takes differences that are rounded, 1e-11 m at 500 km.
using Polytopes = CGAL::Polytope_distance_d<CGAL::Polytope_distance_d_traits_3<Rational, CGAL::Gmpq, CGAL::Gmpq>>;

double exact_distance(std::span<const Point3> one, std::span<const Point3> other) {
  const auto theirs = [](std::span<const Point3> ours) {
    std::vector<Rational::Point_3> points;
    for (const Point3& p : ours) points.emplace_back(p.x, p.y, p.z);
    return points;
  };
  const auto p = theirs(one), q = theirs(other);
  const Polytopes distance(p.begin(), p.end(), q.begin(), q.end());
  return std::sqrt(CGAL::to_double(distance.squared_distance_numerator() / distance.squared_distance_denominator()));
}

bool exactly_meet(Point3 from, Point3 to, std::span<const Point3> triangle) {
  const auto exact = [](Point3 p) { return Exact::Point_3(p.x, p.y, p.z); };
  const Exact::Point_3 a = exact(from), b = exact(to),
                       t[3] = {exact(triangle[0]), exact(triangle[1]), exact(triangle[2])};
  const Exact::Triangle_3 face(t[0], t[1], t[2]);
  if (!face.is_degenerate()) {
    if (a == b) return face.has_on(a);
    return CGAL::do_intersect(Exact::Segment_3(a, b), face);
  }
  // A flat triangle is its longest side.
  for (int i = 0; i < 3; ++i)
    if (CGAL::squared_distance(Exact::Segment_3(a, b), Exact::Segment_3(t[i], t[(i + 1) % 3])) == 0) return true;
  return false;
}

}  // namespace fairlead::sites

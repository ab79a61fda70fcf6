#include "geometry/solids/few_corners.hpp"

#include <algorithm>
#include <queue>

#include "geometry/solids/hull.hpp"

namespace fairlead::solids {
namespace {

std::size_t farthest(std::span<const Vec3> points, Vec3 way) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < points.size(); ++i)
    if (dot(points[i], way) > dot(points[best], way)) best = i;
  return best;
}

std::vector<std::size_t> extremes(std::span<const Vec3> points) {
  std::vector<std::size_t> found;
  for (const double x : {-1., 0., 1.})
    for (const double y : {-1., 0., 1.})
      for (const double z : {-1., 0., 1.})
        if (const Vec3 way{x, y, z}; !(way == Vec3{})) found.push_back(farthest(points, way));
  return found;
}

}  // namespace

// As corners are added the hull only grows, so what a point lay outside of it earlier bounds what it does now: of most
// points that is asked once.
FewCorners few_corners(std::span<const Vec3> points, double within_m, std::size_t most) {
  std::vector<std::size_t> chosen = extremes(points);
  const auto in_order = [&] {
    std::sort(chosen.begin(), chosen.end());
    chosen.erase(std::unique(chosen.begin(), chosen.end()), chosen.end());
  };
  in_order();
  FewCorners few;
  for (const std::size_t i : chosen) few.corners.push_back(points[i]);
  const auto outside_m = [&](std::size_t i) {
    const Point3 p = Point3{} + points[i];
    return std::max(0., nearest(Segment{p, p}, Hull{{}, few.corners}).distance_m);
  };
  struct Candidate {
    double outside_m;
    std::size_t point, asked_at;  ///< asked_at: how many corners there were
    bool operator<(const Candidate& other) const {
      return outside_m != other.outside_m ? outside_m < other.outside_m : point > other.point;
    }
  };
  std::priority_queue<Candidate> far;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (const double out_m = outside_m(i); out_m > 0) far.push({out_m, i, few.corners.size()});
  while (!far.empty()) {
    Candidate next = far.top();
    if (next.asked_at == few.corners.size()) {
      if (next.outside_m <= within_m || few.corners.size() >= most) {
        few.beyond_m = next.outside_m;
        break;
      }
      few.corners.push_back(points[next.point]);
      chosen.push_back(next.point);
      far.pop();
      continue;
    }
    far.pop();
    next.outside_m = outside_m(next.point);
    next.asked_at = few.corners.size();
    if (next.outside_m > 0) far.push(next);
  }
  in_order();
  few.corners.clear();
  for (const std::size_t i : chosen) few.corners.push_back(points[i]);
  return few;
}

}  // namespace fairlead::solids

#include "geometry/survey/mirrored.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <set>

namespace fairlead {
namespace {

/// Through points, by total least squares: its normal is the direction of the least spread.
struct Plane {
  Point3 through;
  Vec3 normal;
};

Plane plane_through(const std::vector<Point3>& points, bool plumb) {
  Vec3 sum;
  for (const Point3& p : points) sum += p - points[0];
  const Point3 middle = points[0] + (1 / static_cast<double>(points.size())) * sum;
  Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
  for (const Point3& p : points) {
    const Vec3 d = p - middle;
    const Eigen::Vector3d v(d.x, d.y, plumb ? 0 : d.z);
    spread += v * v.transpose();
  }
  // A normal along z is none of a plumb plane's.
  if (plumb) spread(2, 2) = 2 * spread.trace() + 1;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> eigen(spread);
  const Eigen::Vector3d n = eigen.eigenvectors().col(0);
  return {middle, {n(0), n(1), n(2)}};
}

}  // namespace

std::vector<std::vector<int>> hanging_together(const Network& network) {
  const auto stands = [&](int p) {
    const NetworkPoint& point = network.points[static_cast<std::size_t>(p)];
    return point.held || point.uncertainty_m.has_value();
  };
  std::vector<int> group(network.points.size());
  for (std::size_t p = 0; p < group.size(); ++p) group[p] = static_cast<int>(p);
  // Whoever is joined takes the lowest number of all, until no reading changes anything.
  for (bool more = true; more;) {
    more = false;
    for (const NetworkReading& one : network.readings) {
      if (stands(one.from) || stands(one.to)) continue;
      int &a = group[static_cast<std::size_t>(one.from)], &b = group[static_cast<std::size_t>(one.to)];
      if (a == b) continue;
      a = b = std::min(a, b);
      more = true;
    }
  }
  std::vector<std::vector<int>> groups;
  for (int first = 0; first < static_cast<int>(group.size()); ++first) {
    if (stands(first) || group[static_cast<std::size_t>(first)] != first) continue;
    std::vector<int> members;
    for (int p = 0; p < static_cast<int>(group.size()); ++p)
      if (!stands(p) && group[static_cast<std::size_t>(p)] == first) members.push_back(p);
    groups.push_back(std::move(members));
  }
  return groups;
}

std::vector<std::vector<Point3>> mirrored_starts(const Network& network, const std::vector<int>& group,
                                                 const std::vector<Point3>& at) {
  std::vector<std::vector<Point3>> starts;
  for (unsigned bits = 1; bits < 1u << group.size(); ++bits) {
    std::set<int> turned, neighbours;
    for (std::size_t g = 0; g < group.size(); ++g)
      if ((bits >> g & 1u) != 0) turned.insert(group[g]);
    for (const NetworkReading& one : network.readings) {
      if (one.kind != NetworkReading::Kind::distance) continue;
      if (turned.contains(one.from) != turned.contains(one.to))
        neighbours.insert(turned.contains(one.from) ? one.to : one.from);
    }
    std::vector<Point3> held;
    for (const int p : neighbours) held.push_back(at[static_cast<std::size_t>(p)]);
    for (const bool plumb : {false, true}) {
      if (held.size() < (plumb ? 2u : 3u)) continue;
      const Plane plane = plane_through(held, plumb);
      std::vector<Point3> start = at;
      for (const int p : turned) {
        Point3& place = start[static_cast<std::size_t>(p)];
        place = place - 2 * dot(place - plane.through, plane.normal) * plane.normal;
      }
      starts.push_back(std::move(start));
    }
  }
  return starts;
}

}  // namespace fairlead

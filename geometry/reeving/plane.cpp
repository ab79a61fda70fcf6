#include "geometry/reeving/plane.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

namespace fairlead::reeving {

std::optional<Plane> best_plane(std::span<const Point3> points, std::span<const double> weights) {
  if (points.size() < 4) return std::nullopt;
  const auto weight = [&](std::size_t i) { return weights.empty() ? 1 : weights[i]; };
  double all = 0;
  for (std::size_t i = 0; i < points.size(); ++i) all += weight(i);
  Vec3 mean;
  for (std::size_t i = 0; i < points.size(); ++i) mean += weight(i) / all * (points[i] - points[0]);
  const Point3 centroid = points[0] + mean;
  Eigen::MatrixX3d off(points.size(), 3);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec3 d = std::sqrt(weight(i)) * (points[i] - centroid);
    off.row(static_cast<Eigen::Index>(i)) << d.x, d.y, d.z;
  }
  // The triangle of the QR decomposition has the same singular values and directions, and is 3 x 3.
  const Eigen::Matrix3d R = off.householderQr().matrixQR().topRows<3>().triangularView<Eigen::Upper>();
  const Eigen::JacobiSVD<Eigen::Matrix3d> svd(R, Eigen::ComputeFullV);
  if (!(svd.singularValues()(1) > 1e-9 * svd.singularValues()(0))) return std::nullopt;
  const Eigen::Vector3d n = svd.matrixV().col(2);
  Plane plane{centroid, {n.x(), n.y(), n.z()}, 0};
  double least = 0, greatest = 0;
  for (const Point3& p : points) {
    const double distance = dot(p - centroid, plane.normal);
    least = std::min(least, distance);
    greatest = std::max(greatest, distance);
  }
  plane.thickness_m = greatest - least;
  return plane;
}

}  // namespace fairlead::reeving

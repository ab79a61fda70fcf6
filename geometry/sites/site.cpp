#include "geometry/sites/site.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fairlead::sites {
namespace {

Point3 to_file(const Placement& placement, Point3 p) {
  const Vec3 v = p - placement.origin;
  const double m = placement.metres_per_unit;
  return {dot(v, placement.x) / m, dot(v, placement.y) / m, dot(v, placement.z) / m};
}
Point3 to_site(const Placement& placement, Point3 p) {
  const double m = placement.metres_per_unit;
  return placement.origin + ((m * p.x) * placement.x + (m * p.y) * placement.y + (m * p.z) * placement.z);
}

/// Of a file's unit; the search's range of numbers is wider.
constexpr double least_unit_m = 1e-9, greatest_unit_m = 1e6;

/// Unit, square to each other, to within what a rounded direction may be off.
bool is_rigid(const Placement& p) {
  constexpr double off = 1e-9;
  const auto near = [](double value, double wanted) { return std::abs(value - wanted) <= off; };
  return near(dot(p.x, p.x), 1) && near(dot(p.y, p.y), 1) && near(dot(p.z, p.z), 1) && near(dot(p.x, p.y), 0) &&
         near(dot(p.y, p.z), 0) && near(dot(p.z, p.x), 0) && std::isfinite(norm(p.origin - Point3{})) &&
         least_unit_m <= p.metres_per_unit && p.metres_per_unit <= greatest_unit_m;
}

ReadErrors only(std::string message, std::string instead) {
  return {{{0, 0, std::move(message), std::move(instead)}}, 0};
}

}  // namespace

Placement placed(Point3 origin, double turn_rad, double metres_per_unit) {
  const double c = std::cos(turn_rad), s = std::sin(turn_rad);
  return {metres_per_unit, {c, s, 0}, {-s, c, 0}, {0, 0, 1}, origin};
}

Site::Site(Mesh mesh, Tree tree, const Description& description)
    : mesh_(std::move(mesh)),
      tree_(std::move(tree)),
      placement_(description.placement),
      point_radius_m_(mesh_.items.corners == 1 ? description.point_radius_m : 0),
      soundness_{mesh_.items.count, tree_.flat(), mesh_.fanned, mesh_.loose_vertices, {}, std::move(mesh_.notes)} {
  if (!is_cloud() && mesh_.items.count <= description.edges_up_to) soundness_.edges = edges_of(mesh_.items);
}

tl::expected<Site, ReadErrors> Site::open(const std::string& path, const Description& description, const Work& work) {
  auto file = MappedFile::open(path, description.most_bytes);
  if (!file) return tl::unexpected<ReadErrors>(only(std::move(file.error().message), std::move(file.error().instead)));
  const auto shared = std::make_shared<const MappedFile>(std::move(*file));
  auto site = over(shared->bytes(), description, work);
  if (site) site->file_ = shared;
  return site;
}

tl::expected<Site, ReadErrors> Site::over(std::span<const std::byte> bytes, const Description& description,
                                          const Work& work) {
  if (!is_rigid(description.placement))
    return tl::unexpected<ReadErrors>(
        only("the placement is no rigid one",
             "give a unit from 1e-9 to 1e6 m, a finite origin, and axes that are square to each other"));
  const ReadLimits limits{description.most_bytes, description.most_items,
                          farthest_coordinate_m / description.placement.metres_per_unit};
  auto mesh = read_mesh(bytes, description.format, limits, work);
  if (!mesh) return tl::unexpected<ReadErrors>(std::move(mesh.error()));
  if (mesh->items.corners == 1 && !(description.point_radius_m > 0 && std::isfinite(description.point_radius_m)))
    return tl::unexpected<ReadErrors>(
        only("the file is a cloud of points, and they have no radius", "give them a \"radius\""));
  auto tree = Tree::over(mesh->items, limits.farthest, work);
  if (!tree) return tl::unexpected<ReadErrors>(astray(*mesh, bytes, limits));
  Site site(std::move(*mesh), std::move(*tree), description);
  site.bytes_ = bytes;
  return site;
}

std::optional<Near> Site::found(std::span<const Point3> hull, double radius_m, const Search& search) const {
  const double radii_m = radius_m + point_radius_m_, unit_m = placement_.metres_per_unit;
  // An unknown bound bounds nothing.
  const double within = search.within_m >= 0 ? (search.within_m + radii_m) / unit_m : HUGE_VAL;
  std::optional<Tree::Found> nearest;
  if (radius_m >= 0 && !hull.empty()) {
    nearest = tree_.nearest(hull, {within, search.start});
    if (!nearest) return std::nullopt;
  }
  if (!nearest || !(nearest->distance >= 0)) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    return Near{unknown, unknown, {unknown, unknown, unknown}, {unknown, unknown, unknown}, 0};
  }
  const double axes_m = nearest->distance * unit_m, gap_m = axes_m - radii_m;
  const Point3 on_shape = to_site(placement_, nearest->on_shape), on_item = to_site(placement_, nearest->on_item);
  if (gap_m > 0) {
    const Vec3 out = (1 / axes_m) * (on_shape - on_item);
    return Near{gap_m, 0, on_shape - radius_m * out, on_item + point_radius_m_ * out, nearest->item};
  }
  const double from_item = axes_m > radius_m ? (axes_m - radius_m) / axes_m : 0;
  const Point3 common = on_item + from_item * (on_shape - on_item);
  return Near{0, radii_m - axes_m, common, common, nearest->item};
}

std::optional<Near> Site::nearest(const Capsule& capsule, const Search& search) const {
  const std::array ends{to_file(placement_, capsule.from), to_file(placement_, capsule.to)};
  return found(ends, capsule.radius_m, search);
}

std::optional<Near> Site::nearest(const Hull& hull, const Search& search) const {
  constexpr std::size_t few = 64;
  std::array<Point3, few> of_few;
  std::vector<Point3> of_many(hull.points.size() > few ? hull.points.size() : 0);
  Point3* const points = of_many.empty() ? of_few.data() : of_many.data();
  std::transform(hull.points.begin(), hull.points.end(), points,
                 [&](const Point3& p) { return to_file(placement_, p); });
  return found({points, hull.points.size()}, hull.radius_m, search);
}

template <class Shape>
std::vector<std::optional<Near>> Site::each(std::span<const Shape> shapes, std::size_t per_pose, double within_m,
                                            const Work& work) const {
  std::vector<std::optional<Near>> near(shapes.size());
  const std::size_t pose = std::max<std::size_t>(per_pose, 1), per_task = 8 * pose;
  const auto tasks = static_cast<int>((shapes.size() + per_task - 1) / per_task);
  for_each_index(work, tasks, [&](int task) {
    const std::size_t begin = static_cast<std::size_t>(task) * per_task;
    for (std::size_t i = begin; i < std::min(begin + per_task, shapes.size()); ++i) {
      Search search{within_m, {}};
      if (i >= begin + pose && near[i - pose]) search.start = near[i - pose]->item;
      near[i] = nearest(shapes[i], search);
    }
  });
  return near;
}

std::vector<std::optional<Near>> Site::nearest_of_each(std::span<const Capsule> shapes, std::size_t per_pose,
                                                       double within_m, const Work& work) const {
  return each(shapes, per_pose, within_m, work);
}

std::vector<std::optional<Near>> Site::nearest_of_each(std::span<const Hull> shapes, std::size_t per_pose,
                                                       double within_m, const Work& work) const {
  return each(shapes, per_pose, within_m, work);
}

solids::Bounds Site::bounds() const {
  const solids::Bounds& box = tree_.bounds();
  const Vec3 half = 0.5 * (box.high - box.low);
  const Point3 middle = to_site(placement_, box.low + half);
  const Placement& p = placement_;
  const double farthest_m = std::max({std::abs(box.low.x), std::abs(box.low.y), std::abs(box.low.z),
                                      std::abs(box.high.x), std::abs(box.high.y), std::abs(box.high.z)}) *
                            p.metres_per_unit;
  const double rounding_m = 16 * std::numeric_limits<double>::epsilon() * (farthest_m + norm(p.origin - Point3{}));
  const auto reach = [&](double x, double y, double z) {
    return p.metres_per_unit * (std::abs(x) * half.x + std::abs(y) * half.y + std::abs(z) * half.z) + point_radius_m_ +
           rounding_m;
  };
  const Vec3 out{reach(p.x.x, p.y.x, p.z.x), reach(p.x.y, p.y.y, p.z.y), reach(p.x.z, p.y.z, p.z.z)};
  return {middle - out, middle + out};
}

std::array<Point3, 3> Site::corners(std::uint32_t item) const {
  std::array<Point3, 3> corners = corners_of(mesh_.items, item);
  for (Point3& corner : corners) corner = to_site(placement_, corner);
  return corners;
}

}  // namespace fairlead::sites

// A mesh or cloud of the real site, where it stands: how near shapes of the rig come to it.
//
//     auto site = Site::open("scan.stl", {.format = Format::stl, .placement = placed({0, 0, 412})}, work);
//     if (!site) ... site.error().first ...
//     if (const auto near = site->nearest(Capsule{from, to, radius_m}, {.within_m = 3})) ... near->distance_m ...
//
// Every triangle counts as it stands, from both sides: a mesh has no inside. Results depend on nothing but the shape
// and the set of items (tree.hpp).
#pragma once

#include <array>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "geometry/quantity/vectors.hpp"
#include "geometry/sites/mapped_file.hpp"
#include "geometry/sites/readers.hpp"
#include "geometry/sites/soundness.hpp"
#include "geometry/sites/tree.hpp"
#include "geometry/solids/distance.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::sites {

/// Where the file's axes and origin lie in the site frame: rigid, right-handed or mirrored.
struct Placement {
  double metres_per_unit = 1;               ///< 1e-9 to 1e6
  Vec3 x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};  ///< the file's axes: unit, square to each other
  Point3 origin;                            ///< the file's origin, m
};
/// Level, and turned about the vertical: seen from above the file's x axis points turn_rad to the left of the site's.
Placement placed(Point3 origin, double turn_rad = 0, double metres_per_unit = 1);

struct Description {
  Format format{};
  Placement placement;
  double point_radius_m = 0;           ///< of a cloud's points, > 0; of a mesh not used
  std::uint32_t edges_up_to = 20'000;  ///< triangles of a mesh whose edges are looked at; that of 20 000 takes 10 ms
  std::size_t most_bytes = ReadLimits{}.most_bytes;
  std::uint32_t most_items = ReadLimits{}.most_items;
};
/// From the placement's origin, along an axis.
inline constexpr double farthest_coordinate_m = 1e6;

/// A stretch of rope, or what else has a straight axis and a round end.
struct Capsule {
  Point3 from, to;
  double radius_m = 0;
};
/// The convex hull of some points, and all within the radius of it. 32 points cost about twice what 8 do.
struct Hull {
  std::span<const Point3> points;
  double radius_m = 0;
};

/// The item of a site that comes nearest to a shape.
struct Near {
  double distance_m{};       ///< between the surfaces; 0 where they meet; NaN where the shape is not known
  double overlap_m{};        ///< where they meet: the radii reach into each other at least so far; 0 is a touch
  Point3 on_shape, on_site;  ///< on the surfaces; a common point, twice, where they meet
  std::uint32_t item{};      ///< in the file's order, from 0; polygons as their triangles
  bool meets() const { return distance_m == 0; }
};

struct Search {
  double within_m = std::numeric_limits<double>::infinity();  ///< what is farther is not found, and costs little
  std::optional<std::uint32_t> start;  ///< an item that may be near: the result of a pose before; changes no result
};

class Site {
 public:
  /// The file is mapped, and stays so while the site lives.
  static tl::expected<Site, ReadErrors> open(const std::string& path, const Description&, const Work& = {});
  /// The bytes must outlive the site.
  static tl::expected<Site, ReadErrors> over(std::span<const std::byte> bytes, const Description&, const Work& = {});

  /// Nothing where no item is within `within_m`. Errors are less than 1e-12 of the sizes of shape and item together,
  /// and where the placement moves, turns or scales, that of rounding the coordinates.
  std::optional<Near> nearest(const Capsule&, const Search& = {}) const;
  std::optional<Near> nearest(const Hull&, const Search& = {}) const;
  /// The same of each, on work.threads threads. `per_pose` of them belong to a pose, in the same order in each: where
  /// one was near a moment ago its search starts.
  std::vector<std::optional<Near>> nearest_of_each(std::span<const Capsule>, std::size_t per_pose, double within_m,
                                                   const Work&) const;
  std::vector<std::optional<Near>> nearest_of_each(std::span<const Hull>, std::size_t per_pose, double within_m,
                                                   const Work&) const;

  std::span<const std::byte> bytes() const { return bytes_; }  ///< the file's
  bool is_cloud() const { return mesh_.items.corners == 1; }
  const Soundness& soundness() const { return soundness_; }
  /// A box around all of it, points' radii too; wider than need be where the placement turns.
  solids::Bounds bounds() const;
  /// The corners of an item, all the same where it is a point.
  std::array<Point3, 3> corners(std::uint32_t item) const;
  /// False where the opened file was written meanwhile: the results are then of neither the old nor the new one.
  bool unchanged() const { return !file_ || file_->unchanged(); }
  /// Items stand in the file in an order that suits the search; else they are found along a curve.
  bool in_file_order() const { return tree_.in_file_order(); }

 private:
  Site(Mesh mesh, Tree tree, const Description&);
  std::optional<Near> found(std::span<const Point3> hull, double radius_m, const Search&) const;
  template <class Shape>
  std::vector<std::optional<Near>> each(std::span<const Shape>, std::size_t per_pose, double within_m,
                                        const Work&) const;

  std::shared_ptr<const MappedFile> file_;
  std::span<const std::byte> bytes_;
  Mesh mesh_;
  Tree tree_;
  Placement placement_;
  double point_radius_m_;
  Soundness soundness_;
};

}  // namespace fairlead::sites

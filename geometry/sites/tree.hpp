// A tree of boxes over the triangles or points of a site: finds the nearest one.
//
// Its leaves are blocks, runs of items as they follow each other in the file where the file is in spatial order, else
// along a curve that fills the site; the items stay where they are. Above stand eight boxes to a node. Every result is
// made in double from the items themselves and depends on nothing but the shape and the set of items: not on the
// processor, the threads, where the search started, or the order of the file, but that equally near items have the
// lowest index. Coordinates are in the file's axes and unit, whose name here is metre; a unit in which the site is
// beyond 1e15 or its distances are below 1e-15 is out of range.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <tl/expected.hpp>
#include <vector>

#include "geometry/quantity/vectors.hpp"
#include "geometry/sites/items.hpp"
#include "geometry/sites/search.hpp"
#include "geometry/sites/unfilled.hpp"
#include "geometry/solids/distance.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead::sites {

/// How a tree is made and searched; no choice changes a result.
struct Making {
  enum class Order { as_it_suits, of_the_file, along_a_curve } order = Order::as_it_suits;
  enum class Processor { as_it_is, any } processor = Processor::as_it_is;
};

class Tree {
 public:
  /// The first item with a coordinate that is unknown, or farther out than allowed.
  struct Astray {
    std::uint32_t item{};
  };
  /// Over at least one item, which must stay in memory.
  static tl::expected<Tree, Astray> over(const Items&, double farthest, const Work&, const Making& = {});

  /// The item nearest to a shape, with the two points.
  struct Found {
    double distance{};  ///< 0 where they meet
    Point3 on_shape, on_item;
    std::uint32_t item{};
  };
  struct Search {
    double most = std::numeric_limits<double>::infinity();  ///< what is farther is not found
    std::optional<std::uint32_t> start;                     ///< an item that may be near
  };
  /// Of the hull of the points, one at least; two are a segment. Errors: exact.hpp's. Nothing where all is farther than
  /// `most`. Of a shape with an unknown coordinate the distance is NaN.
  std::optional<Found> nearest(std::span<const Point3> hull, const Search&) const;

  const solids::Bounds& bounds() const { return bounds_; }
  std::uint32_t flat() const { return flat_; }  ///< triangles without an area
  bool in_file_order() const { return order_.empty(); }

 private:
  explicit Tree(const Items& items) : items_(items) {}
  TreeView view() const;

  Items items_;
  Making making_;
  solids::Bounds bounds_;
  Point3 origin_;
  std::uint32_t flat_{};
  std::vector<std::uint32_t> order_, blocks_, levels_;
  Unfilled<Node> nodes_;
};

/// The corners of an item, all the same where it is a point.
std::array<Point3, 3> corners_of(const Items&, std::uint32_t item);

}  // namespace fairlead::sites

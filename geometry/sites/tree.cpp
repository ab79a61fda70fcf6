#include "geometry/sites/tree.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <utility>

#include "geometry/sites/blocks.hpp"
#include "geometry/sites/exact.hpp"

namespace fairlead::sites {
namespace {

float rounded_down(double value) {
  const auto near = static_cast<float>(value);
  if (!(static_cast<double>(near) > value)) return near;
  // The float below, as std::nextafter tells it, which is no call that can be made here in line.
  const auto bits = std::bit_cast<std::int32_t>(near);
  return near == 0 ? -std::numeric_limits<float>::denorm_min() : std::bit_cast<float>(bits + (bits < 0 ? 1 : -1));
}
float rounded_up(double value) { return -rounded_down(-value); }

/// Below a finite value, by no more than three floats; there is nothing in it to be guessed, where one of a million
/// boxes' sides is as likely to be rounded up as down.
float well_below(double value) {
  const auto near = static_cast<float>(value);
  return near - (std::abs(near) * std::numeric_limits<float>::epsilon() + std::numeric_limits<float>::denorm_min());
}

void set_box(Node& node, std::size_t child, const float (&low)[3], const float (&high)[3]) {
  for (std::size_t k = 0; k < 3; ++k) node.low[k][child] = low[k], node.high[k][child] = high[k];
}

using Walk = void (*)(const TreeView&, Sought&);
Walk walk([[maybe_unused]] Making::Processor processor) {
#ifdef __x86_64__
  static const bool avx2 = __builtin_cpu_supports("avx2");
  if (avx2 && processor == Making::Processor::as_it_is) return search_avx2;
#endif
  return search_anywhere;
}

/// Level 0 from the blocks, each further one from that below.
void stack_nodes(const Unfilled<BlockBox>& boxes, const std::vector<std::uint32_t>& blocks, Point3 origin,
                 const Work& work, Unfilled<Node>& nodes, std::vector<std::uint32_t>& levels) {
  levels = {0};
  nodes.reserve((blocks.size() + 7) / 8 * 8 / 7 + 64);  // and an eighth of it, and so on, with what is rounded up
  std::size_t below = blocks.size(), two_below = 0;
  do {
    const bool lowest = levels.size() == 1;
    const std::size_t from = lowest ? 0 : levels[levels.size() - 2], begin = nodes.size(), count = (below + 7) / 8;
    nodes.resize(begin + count);
    if (below % 8 != 0) nodes.back() = {};
    const auto set_child = [&](std::size_t i) {
      float low[3], high[3];
      if (lowest) {
        constexpr std::size_t soon = 16;  // they are in no order of the memory's
        if (i + soon < blocks.size()) __builtin_prefetch(&boxes[blocks[i + soon]]);
        const solids::Bounds box = bounds(boxes[blocks[i]]);
        const Vec3 least = box.low - origin, greatest = box.high - origin;
        const double l[3] = {least.x, least.y, least.z}, h[3] = {greatest.x, greatest.y, greatest.z};
        for (int k = 0; k < 3; ++k) low[k] = well_below(l[k]), high[k] = -well_below(-h[k]);
      } else {
        const Node& node = nodes[from + i];
        const std::size_t children = std::min<std::size_t>(8, two_below - 8 * i);
        for (std::size_t k = 0; k < 3; ++k) {
          low[k] = *std::min_element(node.low[k], node.low[k] + children);
          high[k] = *std::max_element(node.high[k], node.high[k] + children);
        }
      }
      set_box(nodes[begin + i / 8], i % 8, low, high);
    };
    constexpr std::size_t per_task = 1 << 14;  // whole nodes
    for_each_index(work, static_cast<int>((below + per_task - 1) / per_task), [&](int task) {
      const std::size_t first = static_cast<std::size_t>(task) * per_task;
      for (std::size_t i = first; i < std::min(first + per_task, below); ++i) set_child(i);
    });
    levels.push_back(static_cast<std::uint32_t>(nodes.size()));
    two_below = below;
    below = count;
  } while (below > 1);
}

/// One search: the best so far, and the exact measure the walk calls.
struct Measured {
  Sought* sought;
  const Items* items;
  std::span<const Point3> hull;
  double noise;
  Tree::Found best;
  bool found = false;

  /// Square of how far the walk must look, in float, so that nothing equally near is left out.
  float reach2() const {
    const double reach = (best.distance + noise) * (1 + 1e-6);
    return rounded_up(reach * reach * (1 + 1e-6));
  }
  void measure(std::uint32_t item) {
    const std::array<Point3, 3> corners = corners_of(*items, item);
    const std::span<const Point3> all(corners.data(), static_cast<std::size_t>(items->corners));
    const Apart apart = hull.size() == 2   ? segment_to_item(hull[0], hull[1], all)
                        : hull.size() == 1 ? segment_to_item(hull[0], hull[0], all)
                                           : hull_to_item(hull, all, best.distance);
    if (!(apart.distance < best.distance || (apart.distance == best.distance && item < best.item))) return;
    best = {apart.distance, apart.on_shape, apart.on_item, item};
    found = true;
  }
  static void call(void* state, std::uint32_t item) {
    auto& measured = *static_cast<Measured*>(state);
    measured.measure(item);
    measured.tell();
  }
  /// Hands the walk what was learnt.
  void tell() {
    sought->reach2 = reach2();
    const Vec3 across = found ? best.on_shape - best.on_item : Vec3{};
    const float n[3] = {static_cast<float>(across.x), static_cast<float>(across.y), static_cast<float>(across.z)};
    sought->across_least = std::numeric_limits<float>::infinity();
    for (int i = 0; i < sought->count; ++i) {
      const float* p = sought->points + 3 * static_cast<std::size_t>(i);
      sought->across_least = std::min(sought->across_least, n[0] * p[0] + n[1] * p[1] + n[2] * p[2]);
    }
    std::copy(n, n + 3, sought->across);
  }
};

}  // namespace

std::array<Point3, 3> corners_of(const Items& items, std::uint32_t item) {
  std::array<Point3, 3> corners;
  for (int i = 0; i < 3; ++i) {
    double c[3];
    read_corner(items, item, items.corners == 3 ? i : 0, c);
    corners[static_cast<std::size_t>(i)] = {c[0], c[1], c[2]};
  }
  return corners;
}

tl::expected<Tree, Tree::Astray> Tree::over(const Items& items, double farthest, const Work& work,
                                            const Making& making) {
  Tree tree(items);
  tree.making_ = making;
  Blocks blocks = blocks_of(items, {}, farthest, work);
  if (blocks.has_astray) return tl::unexpected<Astray>(Astray{blocks.astray});
  tree.flat_ = blocks.flat;
  tree.bounds_ = blocks.hull;
  const bool as_filed = making.order == Making::Order::of_the_file ||
                        (making.order == Making::Order::as_it_suits && in_spatial_order(blocks, items.count));
  if (!as_filed) {
    tree.order_ = along_a_curve(items, tree.bounds_, work);
    blocks = blocks_of(items, tree.order_, farthest, work);
  }
  tree.blocks_ = blocks_together(blocks.boxes, tree.bounds_, work);
  const Point3 centre = tree.bounds_.low + 0.5 * (tree.bounds_.high - tree.bounds_.low);
  const auto in_float = [](double value) { return static_cast<double>(static_cast<float>(value)); };
  tree.origin_ = {in_float(centre.x), in_float(centre.y), in_float(centre.z)};
  stack_nodes(blocks.boxes, tree.blocks_, tree.origin_, work, tree.nodes_, tree.levels_);
  return tree;
}

TreeView Tree::view() const {
  return {items_,
          {origin_.x, origin_.y, origin_.z},
          static_cast<std::uint32_t>(blocks_.size()),
          order_.empty() ? nullptr : order_.data(),
          blocks_.data(),
          nodes_.data(),
          levels_.data(),
          static_cast<int>(levels_.size()) - 1};
}

std::optional<Tree::Found> Tree::nearest(std::span<const Point3> hull, const Search& search) const {
  constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();
  constexpr std::size_t few = 64;
  std::array<float, 3 * few> of_few;
  std::vector<float> of_many(hull.size() > few ? 3 * hull.size() : 0);
  float* const points = hull.size() > few ? of_many.data() : of_few.data();
  Sought sought{};
  sought.points = points;
  sought.count = static_cast<int>(hull.size());
  bool known = true;
  double farthest = 0, low[3], high[3];
  for (int k = 0; k < 3; ++k) low[k] = std::numeric_limits<double>::infinity(), high[k] = -low[k];
  for (std::size_t i = 0; i < hull.size(); ++i) {
    const Vec3 p = hull[i] - origin_;
    const double c[3] = {p.x, p.y, p.z};
    for (std::size_t k = 0; k < 3; ++k) {
      known = known && std::isfinite(c[k]);
      points[3 * i + k] = static_cast<float>(c[k]);
      low[k] = std::min(low[k], c[k]), high[k] = std::max(high[k], c[k]);
      farthest = std::max(farthest, std::abs(c[k]));
    }
  }
  // What is asked of an unknown place has no known answer; "nothing is near" would be one.
  if (!known) return Found{std::numeric_limits<double>::quiet_NaN(), hull[0], hull[0], none};
  double run2 = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    const bool segment = hull.size() == 2;
    sought.from[k] = segment ? points[k] : static_cast<float>(low[k] + (high[k] - low[k]) / 2);
    sought.run[k] = segment ? points[3 + k] - points[k] : 0;
    sought.low[k] = rounded_down(low[k]);
    sought.high[k] = rounded_up(high[k]);
    run2 += static_cast<double>(sought.run[k]) * static_cast<double>(sought.run[k]);
  }
  sought.inverse_run2 = run2 > 1e-30 ? static_cast<float>(1 / run2) : 0;
  for (const Point3& p : {bounds_.low, bounds_.high}) {
    const Vec3 q = p - origin_;
    farthest = std::max({farthest, std::abs(q.x), std::abs(q.y), std::abs(q.z)});
  }
  // A float's dot product of a unit vector with a point: each of three products and sums is off by 2^-24 of what it is,
  // the point's coordinates too: 20 x 2^-24 of the farthest coordinate for the difference of two, taken three times.
  const double noise = std::ldexp(std::max(farthest, 1e-15), -18);
  sought.noise2 = static_cast<float>(noise * noise);
  Measured measured{&sought, &items_, hull, noise, {search.most, {}, {}, none}};
  if (search.start && *search.start < items_.count) measured.measure(*search.start);
  measured.tell();
  sought.measure = Measured::call;
  sought.state = &measured;
  walk(making_.processor)(view(), sought);
  if (!measured.found) return std::nullopt;
  return measured.best;
}

}  // namespace fairlead::sites

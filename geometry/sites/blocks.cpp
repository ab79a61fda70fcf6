#include "geometry/sites/blocks.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>

namespace fairlead::sites {
namespace {

constexpr solids::Bounds nothing{{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(),
                                  std::numeric_limits<double>::infinity()},
                                 {-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
                                  -std::numeric_limits<double>::infinity()}};

/// Tasks of a size that does not depend on the threads.
void for_each_run(const Work& work, std::size_t count, std::size_t size,
                  const std::function<void(std::size_t run, std::size_t begin, std::size_t end)>& task) {
  for_each_index(work, static_cast<int>((count + size - 1) / size), [&](int i) {
    const std::size_t begin = static_cast<std::size_t>(i) * size;
    task(static_cast<std::size_t>(i), begin, std::min(begin + size, count));
  });
}

Point3 middle(const solids::Bounds& box) { return box.low + 0.5 * (box.high - box.low); }

double surface(const solids::Bounds& box) {
  const Vec3 side = box.high - box.low;
  return side.x * side.y + side.y * side.z + side.z * side.x;
}

/// Two blanks after each of ten bits.
std::uint32_t spread(std::uint32_t bits) {
  bits = (bits | (bits << 16)) & 0x030000FF;
  bits = (bits | (bits << 8)) & 0x0300F00F;
  bits = (bits | (bits << 4)) & 0x030C30C3;
  return (bits | (bits << 2)) & 0x09249249;
}

/// How far along Hilbert's curve a place of the unit cube is, in 2^30 steps (Skilling, "Programming the Hilbert curve",
/// AIP Conference Proceedings 707, 2004, recalled).
std::uint32_t along_hilbert(const Vec3& at) {
  const auto cell = [](double share) { return static_cast<std::uint32_t>(std::clamp(share, 0., 1.) * 1023); };
  std::uint32_t x[3] = {cell(at.x), cell(at.y), cell(at.z)};
  for (std::uint32_t q = 512; q > 1; q >>= 1) {
    const std::uint32_t p = q - 1;
    for (int i = 0; i < 3; ++i) {
      const std::uint32_t swapped = (x[i] & q) != 0 ? 0 : (x[0] ^ x[i]) & p;
      x[0] ^= (x[i] & q) != 0 ? p : swapped;
      x[i] ^= swapped;
    }
  }
  for (int i = 1; i < 3; ++i) x[i] ^= x[i - 1];
  std::uint32_t t = 0;
  for (std::uint32_t q = 512; q > 1; q >>= 1)
    if (x[2] & q) t ^= q - 1;
  for (int i = 0; i < 3; ++i) x[i] ^= t;
  return spread(x[0]) << 2 | spread(x[1]) << 1 | spread(x[2]);
}

bool has_no_area(const double (&c)[3][3]) {
  double u[3], v[3];
  for (int k = 0; k < 3; ++k) u[k] = c[1][k] - c[0][k], v[k] = c[2][k] - c[0][k];
  return u[1] * v[2] - u[2] * v[1] == 0 && u[2] * v[0] - u[0] * v[2] == 0 && u[0] * v[1] - u[1] * v[0] == 0;
}

}  // namespace

Blocks blocks_of(const Items& items, const std::vector<std::uint32_t>& order, double farthest, const Work& work) {
  constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();
  const std::size_t count = (std::size_t{items.count} + per_block - 1) / per_block, per_task = 256;
  Blocks blocks;
  blocks.boxes.resize(count);
  const std::size_t tasks = (count + per_task - 1) / per_task;
  std::vector<std::uint32_t> flat(tasks, 0), astray(tasks, none);
  for_each_run(work, count, per_task, [&](std::size_t task, std::size_t begin, std::size_t end) {
    for (std::size_t b = begin; b < end; ++b) {
      double low[3], high[3], c[3][3];
      for (int k = 0; k < 3; ++k) low[k] = std::numeric_limits<double>::infinity(), high[k] = -low[k];
      const auto first = static_cast<std::uint32_t>(b * per_block);
      const std::uint32_t last = first + std::min(per_block, items.count - first);
      for (std::uint32_t place = first; place < last; ++place) {
        const std::uint32_t item = order.empty() ? place : order[place];
        bool known = true;
        for (int corner = 0; corner < items.corners; ++corner) {
          read_corner(items, item, corner, c[corner]);
          for (int k = 0; k < 3; ++k) {
            low[k] = c[corner][k] < low[k] ? c[corner][k] : low[k];
            high[k] = c[corner][k] > high[k] ? c[corner][k] : high[k];
            known = known && std::abs(c[corner][k]) <= farthest;
          }
        }
        if (!known) astray[task] = std::min(astray[task], item);
        if (items.corners == 3 && has_no_area(c)) ++flat[task];
      }
      blocks.boxes[b] = {{low[0], low[1], low[2]}, {high[0], high[1], high[2]}};
    }
  });
  blocks.flat = std::accumulate(flat.begin(), flat.end(), std::uint32_t{0});
  blocks.astray = *std::min_element(astray.begin(), astray.end());
  blocks.has_astray = blocks.astray != none;
  return blocks;
}

solids::Bounds hull_of(const std::vector<solids::Bounds>& boxes) {
  solids::Bounds all = nothing;
  for (const solids::Bounds& box : boxes) all = solids::hull(all, box);
  return all;
}

bool in_spatial_order(const Blocks& blocks, const solids::Bounds& all, std::uint32_t items) {
  double sum = 0;
  for (const solids::Bounds& box : blocks.boxes) sum += surface(box);
  // Of items spread through a volume a block has the share per_block / items, and its surface that to the power 2/3; of
  // a surface's items, less. A block as wide as the site itself has a share of 1.
  const double share = std::min(1., static_cast<double>(per_block) / items);
  constexpr double times_even = 4;
  return sum / static_cast<double>(blocks.boxes.size()) <= times_even * std::cbrt(share * share) * surface(all);
}

namespace {

/// The order of places along Hilbert's curve; equal ones in their own order.
template <class Place>
std::vector<std::uint32_t> curve_order(std::size_t count, const solids::Bounds& all, const Work& work, Place place) {
  const Vec3 side = all.high - all.low;
  const double per_side = 1 / std::max({side.x, side.y, side.z, std::numeric_limits<double>::min()});
  struct Keyed {
    std::uint32_t key, index;
  };
  std::vector<Keyed> from(count), to(count);
  for_each_run(work, count, 1 << 16, [&](std::size_t, std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) {
      const Vec3 at = per_side * (place(static_cast<std::uint32_t>(i)) - all.low);
      from[i] = {along_hilbert(at), static_cast<std::uint32_t>(i)};
    }
  });
  constexpr unsigned digit = 10, digits = 3;
  std::array<std::array<std::uint32_t, 1 << digit>, digits> begins{};
  const auto part = [](std::uint32_t key, unsigned d) { return (key >> (d * digit)) & ((1U << digit) - 1); };
  for (const Keyed& item : from)
    for (unsigned d = 0; d < digits; ++d) ++begins[d][part(item.key, d)];
  for (unsigned d = 0; d < digits; ++d) {
    std::exclusive_scan(begins[d].begin(), begins[d].end(), begins[d].begin(), std::uint32_t{0});
    for (const Keyed& item : from) to[begins[d][part(item.key, d)]++] = item;
    from.swap(to);
  }
  std::vector<std::uint32_t> order(count);
  std::transform(from.begin(), from.end(), order.begin(), [](const Keyed& item) { return item.index; });
  return order;
}

}  // namespace

std::vector<std::uint32_t> along_a_curve(const Items& items, const solids::Bounds& all, const Work& work) {
  return curve_order(items.count, all, work, [&](std::uint32_t item) {
    Point3 sum;
    double c[3];
    for (int corner = 0; corner < items.corners; ++corner) {
      read_corner(items, item, corner, c);
      sum = sum + Vec3{c[0], c[1], c[2]};
    }
    return Point3{sum.x / items.corners, sum.y / items.corners, sum.z / items.corners};
  });
}

std::vector<std::uint32_t> blocks_together(const std::vector<solids::Bounds>& boxes, const solids::Bounds& all,
                                           const Work& work) {
  return curve_order(boxes.size(), all, work, [&](std::uint32_t i) { return middle(boxes[i]); });
}

}  // namespace fairlead::sites

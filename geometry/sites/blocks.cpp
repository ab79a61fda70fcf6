#include "geometry/sites/blocks.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <limits>
#include <numeric>
#include <span>
#include <utility>

namespace fairlead::sites {
namespace {

constexpr solids::Bounds nothing{{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity(),
                                  std::numeric_limits<double>::infinity()},
                                 {-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
                                  -std::numeric_limits<double>::infinity()}};

constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

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

/// Cells of the unit cube, 1024 to a side, many at once so that they are counted in vectors.
struct Cells {
  static constexpr std::size_t many = 256;
  std::uint32_t x[many], y[many], z[many];
  void set(std::size_t i, Vec3 share) {
    const auto cell = [](double value) { return static_cast<std::uint32_t>(std::clamp(value, 0., 1.) * 1023); };
    x[i] = cell(share.x), y[i] = cell(share.y), z[i] = cell(share.z);
  }
};

/// How far along Hilbert's curve each cell is, in 2^30 steps (SKIL04); the cells are lost.
void count_along_hilbert(Cells& cells, std::uint32_t (&steps)[Cells::many]) {
  auto& [x, y, z] = cells;
  for (unsigned bit = 9; bit > 0; --bit) {
    const std::uint32_t below = (1U << bit) - 1;
    // Where the bit is set the first axis is turned over, else it and this one change places.
    const auto turn = [bit, below](std::uint32_t& first, std::uint32_t& axis) {
      const std::uint32_t set = 0U - ((axis >> bit) & 1U), swapped = ~set & (first ^ axis) & below;
      first ^= (set & below) | swapped;
      axis ^= swapped;
    };
    for (std::size_t i = 0; i < Cells::many; ++i) {
      std::uint32_t first = x[i];
      first ^= (0U - ((first >> bit) & 1U)) & below;
      turn(first, y[i]);
      turn(first, z[i]);
      x[i] = first;
    }
  }
  for (std::size_t i = 0; i < Cells::many; ++i) {
    y[i] ^= x[i];
    z[i] ^= y[i];
    std::uint32_t flip = 0;
    for (unsigned bit = 9; bit > 0; --bit) flip ^= (0U - ((z[i] >> bit) & 1U)) & ((1U << bit) - 1);
    steps[i] = spread(x[i] ^ flip) << 2 | spread(y[i] ^ flip) << 1 | spread(z[i] ^ flip);
  }
}

/// Coordinates side by side, three corners. The differences of floats and their products are exact but for tiny ones.
template <class Number>
bool has_no_area(const Number* c) {
  const auto from_first = [c](int k) { return static_cast<double>(c[k]) - static_cast<double>(c[k % 3]); };
  const double ux = from_first(3), uy = from_first(4), vx = from_first(6), vy = from_first(7);
  if (ux * vy - uy * vx != 0) return false;
  const double uz = from_first(5), vz = from_first(8);
  return uy * vz - uz * vy == 0 && uz * vx - ux * vz == 0;
}

}  // namespace

namespace {

typedef float F4 __attribute__((vector_size(16)));         // NOLINT(modernize-use-using)
typedef std::int32_t I4 __attribute__((vector_size(16)));  // NOLINT(modernize-use-using)

F4 four_at(const std::byte* floats) {
  F4 value;
  std::memcpy(&value, floats, sizeof value);
  return value;
}
F4 least(F4 a, F4 b) { return a < b ? a : b; }
F4 most(F4 a, F4 b) { return a > b ? a : b; }
F4 size(F4 v) { return reinterpret_cast<F4>(reinterpret_cast<I4>(v) & std::numeric_limits<std::int32_t>::max()); }
F4 one_on(F4 v) { return __builtin_shufflevector(v, v, 1, 2, 0, 3); }
F4 two_on(F4 v) { return __builtin_shufflevector(v, v, 2, 0, 1, 3); }

/// True only where two sides, x, y, z, span an area: each product is off by 3 x 2^-24 of itself at most, so a
/// difference beyond 2^-20 of both is one, but for the tiniest.
bool surely_an_area(F4 one, F4 other) {
  const F4 p = one_on(one) * two_on(other), q = two_on(one) * one_on(other);
  constexpr float share = 0x1p-20F, tiny = 1e-30F;
  const I4 sure = size(p - q) > share * (size(p) + size(q)) + tiny;
  std::int64_t pairs[2];
  std::memcpy(pairs, &sure, sizeof pairs);
  return (pairs[0] | (pairs[1] << 32)) != 0;
}

/// Triangles in floats whose corners follow each other, the most common and largest of sites: four coordinates at once.
/// True where all are known and near enough.
bool grow_by_soup(const Items& items, std::uint32_t begin, std::uint32_t end, double farthest, solids::Bounds& box,
                  std::uint32_t& flat) {
  constexpr float far = std::numeric_limits<float>::infinity();
  const float allowed = farthest < static_cast<double>(std::numeric_limits<float>::max())
                            ? static_cast<float>(farthest)
                            : std::numeric_limits<float>::max();
  F4 low = {far, far, far, far}, high = -low;
  I4 good = {-1, -1, -1, -1};
  for (std::uint32_t i = begin; i < end; ++i) {
    const std::byte* const at = items.coordinates + items.stride * i;
    // x, y, z of each corner, and one more coordinate, which is the next one's or the last one's.
    const F4 first = four_at(at), second = four_at(at + 12), behind = four_at(at + 20),
             third = __builtin_shufflevector(behind, behind, 1, 2, 3, 0);
    low = least(low, least(first, least(second, third)));
    high = most(high, most(first, most(second, third)));
    good &= (size(first) <= allowed) & (size(second) <= allowed) & (size(third) <= allowed);
    if (!surely_an_area(second - first, third - first)) {
      float c[9];
      std::memcpy(c, at, sizeof c);
      flat += static_cast<std::uint32_t>(has_no_area(c));
    }
  }
  const auto in_double = [](F4 v) {
    return Point3{static_cast<double>(v[0]), static_cast<double>(v[1]), static_cast<double>(v[2])};
  };
  box = {in_double(low), in_double(high)};
  return (good[0] & good[1] & good[2] & good[3]) != 0;
}

/// The same of any items; the first that is astray.
std::uint32_t grow_by_any(const Items& items, const std::vector<std::uint32_t>& order, std::uint32_t begin,
                          std::uint32_t end, double farthest, solids::Bounds& box, std::uint32_t& flat) {
  std::uint32_t astray = none;
  box = nothing;
  for (std::uint32_t place = begin; place < end; ++place) {
    const std::uint32_t item = order.empty() ? place : order[place];
    // In no order of the memory's, so what comes soon is asked for now.
    constexpr std::size_t soon = 32;
    if (place + soon < order.size())
      for (const int corner : {0, items.corners - 1}) __builtin_prefetch(corner_at(items, order[place + soon], corner));
    double c[3][3];
    bool known = true;
    for (int corner = 0; corner < items.corners; ++corner) {
      read_corner(items, item, corner, c[corner]);
      const auto& [x, y, z] = c[corner];
      box = solids::hull(box, {{x, y, z}, {x, y, z}});
      known = known && std::abs(x) <= farthest && std::abs(y) <= farthest && std::abs(z) <= farthest;
    }
    if (!known) astray = std::min(astray, item);
    if (items.corners == 3 && has_no_area(&c[0][0])) ++flat;
  }
  return astray;
}

}  // namespace

Blocks blocks_of(const Items& items, const std::vector<std::uint32_t>& order, double farthest, const Work& work) {
  const std::size_t count = (std::size_t{items.count} + per_block - 1) / per_block, per_task = 1024;
  const bool soup = !items.wide && items.indices == nullptr && items.corners == 3 && order.empty();
  Blocks blocks;
  blocks.boxes.resize(count);
  const std::size_t tasks = (count + per_task - 1) / per_task;
  std::vector<std::uint32_t> flat(tasks, 0), astray(tasks, none);
  std::vector<solids::Bounds> hulls(tasks, nothing);
  std::vector<double> surfaces(tasks, 0);
  for_each_run(work, count, per_task, [&](std::size_t task, std::size_t begin, std::size_t end) {
    std::uint32_t flat_here = 0, astray_here = none;
    solids::Bounds all = nothing;
    double sum = 0;
    for (std::size_t b = begin; b < end; ++b) {
      const auto first = static_cast<std::uint32_t>(b * per_block);
      const std::uint32_t last = first + std::min(per_block, items.count - first);
      std::uint32_t again = 0;
      solids::Bounds box;
      if (!(soup && grow_by_soup(items, first, last, farthest, box, flat_here)))
        astray_here =
            std::min(astray_here, grow_by_any(items, order, first, last, farthest, box, soup ? again : flat_here));
      blocks.boxes[b] = {{box.low.x, box.low.y, box.low.z}, {box.high.x, box.high.y, box.high.z}};
      all = solids::hull(all, box);
      sum += surface(box);
    }
    hulls[task] = all;
    surfaces[task] = sum;
    flat[task] = flat_here;
    astray[task] = astray_here;
  });
  blocks.flat = std::accumulate(flat.begin(), flat.end(), std::uint32_t{0});
  blocks.astray = *std::min_element(astray.begin(), astray.end());
  blocks.has_astray = blocks.astray != none;
  blocks.hull = std::accumulate(hulls.begin(), hulls.end(), nothing, solids::hull);
  blocks.surfaces = std::accumulate(surfaces.begin(), surfaces.end(), 0.);
  return blocks;
}

bool in_spatial_order(const Blocks& blocks, std::uint32_t items) {
  // Of items spread through a volume a block has the share per_block / items, and its surface that to the power 2/3; of
  // a surface's items, less. A block as wide as the site itself has a share of 1.
  const double share = std::min(1., static_cast<double>(per_block) / items);
  constexpr double times_even = 4;
  return blocks.surfaces / static_cast<double>(blocks.boxes.size()) <=
         times_even * std::cbrt(share * share) * surface(blocks.hull);
}

namespace {

struct Keyed {
  std::uint32_t key, index;
};

/// By one digit of the key, equal ones in order. Each run counts what it has of every digit; where each of them goes
/// follows, digit by digit and in each run by run.
void sort_by_digit(const Unfilled<Keyed>& from, unsigned shift, Unfilled<Keyed>& to, const Work& work) {
  constexpr std::size_t digits = 1 << 10, per_run = 1 << 16;
  const auto digit = [shift](const Keyed& item) { return (item.key >> shift) & (digits - 1); };
  std::vector<std::array<std::uint32_t, digits>> begins((from.size() + per_run - 1) / per_run);
  for_each_run(work, from.size(), per_run, [&](std::size_t run, std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) ++begins[run][digit(from[i])];
  });
  std::uint32_t begin_of_next = 0;
  for (std::size_t d = 0; d < digits; ++d)
    for (std::array<std::uint32_t, digits>& begin : begins) begin_of_next += std::exchange(begin[d], begin_of_next);
  for_each_run(work, from.size(), per_run, [&](std::size_t run, std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) to[begins[run][digit(from[i])]++] = from[i];
  });
}

/// Indices along Hilbert's curve by their places in a box; equal ones in order.
template <class Place>
std::vector<std::uint32_t> order_along(std::size_t count, Place place, const solids::Bounds& all, const Work& work) {
  const Vec3 side = all.high - all.low;
  const double per_side = 1 / std::max({side.x, side.y, side.z, std::numeric_limits<double>::min()});
  Unfilled<Keyed> from(count), to(count);
  for_each_run(work, count, 1 << 16, [&](std::size_t, std::size_t begin, std::size_t end) {
    Cells cells{};
    std::uint32_t steps[Cells::many];
    for (std::size_t first = begin; first < end; first += Cells::many) {
      const std::size_t count_here = std::min(Cells::many, end - first);
      for (std::size_t i = 0; i < count_here; ++i)
        cells.set(i, per_side * (place(static_cast<std::uint32_t>(first + i)) - all.low));
      count_along_hilbert(cells, steps);
      for (std::size_t i = 0; i < count_here; ++i) from[first + i] = {steps[i], static_cast<std::uint32_t>(first + i)};
    }
  });
  for (const unsigned shift : {0U, 10U, 20U}) {
    sort_by_digit(from, shift, to, work);
    from.swap(to);
  }
  std::vector<std::uint32_t> order(count);
  std::transform(from.begin(), from.end(), order.begin(), [](const Keyed& item) { return item.index; });
  return order;
}

}  // namespace

std::vector<std::uint32_t> along_a_curve(const Items& items, const solids::Bounds& all, const Work& work) {
  const auto place = [&](std::uint32_t item) {
    Point3 sum;
    double c[3];
    for (int corner = 0; corner < items.corners; ++corner) {
      read_corner(items, item, corner, c);
      sum = sum + Vec3{c[0], c[1], c[2]};
    }
    return Point3{sum.x / items.corners, sum.y / items.corners, sum.z / items.corners};
  };
  return order_along(items.count, place, all, work);
}

namespace {

/// The middle of a block's box.
struct Middle {
  float at[3];
  std::uint32_t block;
};

/// Where a run is split in two, at the median along its longest side, so that each child of the tree's node gets as
/// many as it can hold, but the last; 0 where the run is a node of level 0.
std::size_t split(std::span<Middle> run) {
  if (run.size() <= 8) return 0;
  std::size_t child = 8;
  while (child * 8 < run.size()) child *= 8;
  const std::size_t children = (run.size() + child - 1) / child, half = (children + 1) / 2 * child;
  float low[3] = {run[0].at[0], run[0].at[1], run[0].at[2]}, high[3] = {low[0], low[1], low[2]};
  for (const Middle& m : run)
    for (int k = 0; k < 3; ++k) low[k] = std::min(low[k], m.at[k]), high[k] = std::max(high[k], m.at[k]);
  const float side[3] = {high[0] - low[0], high[1] - low[1], high[2] - low[2]};
  const int axis = side[0] >= side[1] && side[0] >= side[2] ? 0 : side[1] >= side[2] ? 1 : 2;
  std::nth_element(run.begin(), run.begin() + static_cast<std::ptrdiff_t>(half), run.end(),
                   [axis](const Middle& a, const Middle& b) {
                     return a.at[axis] != b.at[axis] ? a.at[axis] < b.at[axis] : a.block < b.block;
                   });
  return half;
}

}  // namespace

std::vector<std::uint32_t> blocks_together(const Unfilled<BlockBox>& boxes, const solids::Bounds& all,
                                           const Work& work) {
  constexpr std::size_t many = 1 << 14;
  if (boxes.size() > many)
    return order_along(
        boxes.size(), [&](std::uint32_t block) { return middle(bounds(boxes[block])); }, all, work);
  std::vector<Middle> middles(boxes.size());
  for (std::uint32_t i = 0; i < boxes.size(); ++i) {
    const Vec3 at = middle(bounds(boxes[i])) - middle(all);
    middles[i] = {{static_cast<float>(at.x), static_cast<float>(at.y), static_cast<float>(at.z)}, i};
  }
  for (std::vector<std::span<Middle>> waiting{middles}; !waiting.empty();) {
    const std::span<Middle> run = waiting.back();
    waiting.pop_back();
    const std::size_t half = split(run);
    if (half == 0) continue;
    waiting.push_back(run.first(half));
    waiting.push_back(run.subspan(half));
  }
  std::vector<std::uint32_t> order(boxes.size());
  std::transform(middles.begin(), middles.end(), order.begin(), [](const Middle& m) { return m.block; });
  return order;
}

}  // namespace fairlead::sites

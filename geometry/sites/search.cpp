// For any unit vector n, the least n.p over the shape less the greatest n.q over a box or an item is no more than their
// distance, and equals it for n from the one's nearest point to the other's. So a rough guess of those points, made in
// float and eight at a time, gives a bound that no rounding but that of two dot products can spoil.
//
// Compiled twice. Nothing here may be shared with other files, not even an inline function: the linker might take
// AVX2's for all. So no library is used, and all but the entry has internal linkage; a test looks at the object.
#include "geometry/sites/search.hpp"

#ifndef FAIRLEAD_SEARCH
#define FAIRLEAD_SEARCH search_anywhere
#endif

namespace fairlead::sites {
namespace {

typedef float F4 __attribute__((vector_size(16)));         // NOLINT(modernize-use-using)
typedef float F8 __attribute__((vector_size(32)));         // NOLINT(modernize-use-using)
typedef std::int32_t I8 __attribute__((vector_size(32)));  // NOLINT(modernize-use-using)
typedef std::int64_t L4 __attribute__((vector_size(32)));  // NOLINT(modernize-use-using)
typedef std::int64_t L2 __attribute__((vector_size(16)));  // NOLINT(modernize-use-using)
struct V8 {
  F8 x, y, z;
};

#define FAIRLEAD_INLINE [[gnu::always_inline]] static inline

FAIRLEAD_INLINE F8 all(float value) { return F8{value, value, value, value, value, value, value, value}; }
FAIRLEAD_INLINE V8 all(const float (&v)[3]) { return {all(v[0]), all(v[1]), all(v[2])}; }
FAIRLEAD_INLINE F8 least(F8 a, F8 b) { return a < b ? a : b; }
FAIRLEAD_INLINE F8 greatest(F8 a, F8 b) { return a > b ? a : b; }
FAIRLEAD_INLINE F8 between(F8 value, F8 low, F8 high) { return least(greatest(value, low), high); }
FAIRLEAD_INLINE V8 plus(const V8& a, const V8& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
FAIRLEAD_INLINE V8 minus(const V8& a, const V8& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
FAIRLEAD_INLINE V8 times(F8 s, const V8& a) { return {s * a.x, s * a.y, s * a.z}; }
FAIRLEAD_INLINE F8 dot(const V8& a, const V8& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
FAIRLEAD_INLINE F8 loaded(const float (&from)[8]) {
  F8 value;
  __builtin_memcpy(&value, from, sizeof value);
  return value;
}

/// The spine's point nearest to q.
FAIRLEAD_INLINE V8 on_spine(const Sought& sought, const V8& q) {
  const V8 from = all(sought.from), run = all(sought.run);
  const F8 t = between(dot(minus(q, from), run) * all(sought.inverse_run2), F8{}, all(1.F));
  return plus(from, times(t, run));
}

/// The least n.p of the shape's points; `at`: where it is.
FAIRLEAD_INLINE F8 least_along(const Sought& sought, const V8& n, V8& at) {
  at = {all(sought.points[0]), all(sought.points[1]), all(sought.points[2])};
  F8 low = dot(n, at);
  for (int i = 1; i < sought.count; ++i) {
    const float* p = sought.points + 3 * static_cast<std::size_t>(i);
    const V8 point{all(p[0]), all(p[1]), all(p[2])};
    const F8 here = dot(n, point);
    const I8 lower = here < low;
    low = lower ? here : low;
    at = {lower ? point.x : at.x, lower ? point.y : at.y, lower ? point.z : at.z};
  }
  return low;
}

/// The square of apart / |n|, where n is more than rounding and they are apart; in this order, for its square alone may
/// be beyond a float. NaN is no bound.
FAIRLEAD_INLINE F8 squared_bound(const Sought& sought, const V8& n, F8 apart) {
  const F8 size2 = dot(n, n);
  const I8 bounded = (apart > 0.F) & (size2 > sought.noise2);
  return bounded ? apart * (apart / size2) : F8{};
}

/// A bit for each of eight bounds that lets one be nearest.
FAIRLEAD_INLINE unsigned within_reach(F8 bounds, const Sought& sought) {
  const I8 open = ~(bounds > sought.reach2);  // NaN is open
  const L4 bits = (L4)(open & I8{1, 2, 4, 8, 16, 32, 64, 128});
  const L2 halves = __builtin_shufflevector(bits, bits, 0, 1) | __builtin_shufflevector(bits, bits, 2, 3);
  const auto both = static_cast<std::uint64_t>(halves[0] | halves[1]);
  return static_cast<unsigned>(both | both >> 32) & 0xFFU;
}

/// Squares of what the shape's distance from each box is at least.
FAIRLEAD_INLINE F8 box_bounds(const Node& node, const Sought& sought) {
  const V8 low{loaded(node.low[0]), loaded(node.low[1]), loaded(node.low[2])};
  const V8 high{loaded(node.high[0]), loaded(node.high[1]), loaded(node.high[2])};
  const auto into_box = [&](const V8& p) {
    return V8{between(p.x, low.x, high.x), between(p.y, low.y, high.y), between(p.z, low.z, high.z)};
  };
  const auto top = [&](const V8& n) {
    return greatest(n.x * low.x, n.x * high.x) + greatest(n.y * low.y, n.y * high.y) +
           greatest(n.z * low.z, n.z * high.z);
  };
  // The direction in which the best so far is apart costs little, and most that is not nearer is no nearer along it.
  const V8 across = all(sought.across);
  F8 best = squared_bound(sought, across, all(sought.across_least) - top(across));
  if (within_reach(best, sought) == 0) return best;
  const auto bound = [&](const V8& n) {
    V8 at;
    return squared_bound(sought, n, least_along(sought, n, at) - top(n));
  };
  V8 p = on_spine(sought, times(all(0.5F), plus(low, high)));
  if (sought.count == 2) p = on_spine(sought, into_box(p));
  best = greatest(best, bound(minus(p, into_box(p))));
  if (sought.count > 2) {  // the gap between the boxes is a direction too, and a good one near by
    const auto gap = [&](F8 box_low, F8 box_high, float shape_low, float shape_high) {
      return greatest(all(shape_low) - box_high, F8{}) - greatest(box_low - all(shape_high), F8{});
    };
    const V8 n{gap(low.x, high.x, sought.low[0], sought.high[0]), gap(low.y, high.y, sought.low[1], sought.high[1]),
               gap(low.z, high.z, sought.low[2], sought.high[2])};
    best = greatest(best, bound(n));
  }
  return best;
}

/// The triangles' points nearest to p, roughly: by the regions of a triangle's plane, later lines overruling earlier
/// ones.
FAIRLEAD_INLINE V8 on_triangles(const V8 (&corner)[3], const V8& p) {
  const V8 ab = minus(corner[1], corner[0]), ac = minus(corner[2], corner[0]);
  const V8 ap = minus(p, corner[0]), bp = minus(p, corner[1]), cp = minus(p, corner[2]);
  const F8 d1 = dot(ab, ap), d2 = dot(ac, ap), d3 = dot(ab, bp), d4 = dot(ac, bp), d5 = dot(ab, cp), d6 = dot(ac, cp);
  const F8 va = d3 * d6 - d5 * d4, vb = d5 * d2 - d1 * d6, vc = d1 * d4 - d3 * d2;
  const F8 inverse = all(1.F) / (va + vb + vc), zero{}, one = all(1.F);
  F8 v = vb * inverse, w = vc * inverse;
  const F8 along_ab = d1 / (d1 - d3), along_ac = d2 / (d2 - d6), along_bc = (d4 - d3) / ((d4 - d3) + (d5 - d6));
  const I8 ab_side = (vc <= 0.F) & (d1 >= 0.F) & (d3 <= 0.F);
  v = ab_side ? along_ab : v, w = ab_side ? zero : w;
  const I8 ac_side = (vb <= 0.F) & (d2 >= 0.F) & (d6 <= 0.F);
  v = ac_side ? zero : v, w = ac_side ? along_ac : w;
  const I8 bc_side = (va <= 0.F) & (d4 >= d3) & (d5 >= d6);
  v = bc_side ? one - along_bc : v, w = bc_side ? along_bc : w;
  const I8 at_a = (d1 <= 0.F) & (d2 <= 0.F);
  v = at_a ? zero : v, w = at_a ? zero : w;
  const I8 at_b = (d3 >= 0.F) & (d4 <= d3);
  v = at_b ? one : v, w = at_b ? zero : w;
  const I8 at_c = (d6 >= 0.F) & (d5 <= d6);
  v = at_c ? zero : v, w = at_c ? one : w;
  return plus(corner[0], plus(times(v, ab), times(w, ac)));
}

/// Squares of what the shape's distance from each of eight triangles is at least.
FAIRLEAD_INLINE F8 triangle_bounds(const V8 (&corner)[3], const Sought& sought) {
  V8 at;
  const auto bound = [&](const V8& n) {
    const F8 highest = greatest(greatest(dot(n, corner[0]), dot(n, corner[1])), dot(n, corner[2]));
    return squared_bound(sought, n, least_along(sought, n, at) - highest);
  };
  const V8 across = all(sought.across);  // as of boxes
  const F8 top = greatest(greatest(dot(across, corner[0]), dot(across, corner[1])), dot(across, corner[2]));
  const F8 along = squared_bound(sought, across, all(sought.across_least) - top);
  if (within_reach(along, sought) == 0) return along;
  const V8 middle = times(all(1.F / 3), plus(plus(corner[0], corner[1]), corner[2]));
  const V8 q = on_triangles(corner, on_spine(sought, middle));
  const F8 first = greatest(along, bound(minus(on_spine(sought, q), q)));
  if (within_reach(first, sought) == 0) return first;
  const V8 p = sought.count == 2 ? on_spine(sought, q) : at;
  const V8 nearer = on_triangles(corner, p);
  return greatest(first, bound(minus(sought.count == 2 ? on_spine(sought, nearer) : p, nearer)));
}

FAIRLEAD_INLINE F8 point_bounds(const V8& point, const Sought& sought) {
  V8 at;
  const auto bound = [&](const V8& n) { return squared_bound(sought, n, least_along(sought, n, at) - dot(n, point)); };
  const F8 first = bound(minus(on_spine(sought, point), point));
  return sought.count == 2 ? first : greatest(first, bound(minus(at, point)));
}

/// Eight places x, y, z, each behind a float of something else.
FAIRLEAD_INLINE V8 transposed(const std::byte* const (&at)[8]) {
  const auto two = [&](int lane) {
    F4 one, other;
    __builtin_memcpy(&one, at[lane] - 4, sizeof one);
    __builtin_memcpy(&other, at[lane + 4] - 4, sizeof other);
    return __builtin_shufflevector(one, other, 0, 1, 2, 3, 4, 5, 6, 7);
  };
  const F8 a = two(0), b = two(1), c = two(2), d = two(3);
  const F8 ab_x = __builtin_shufflevector(a, b, 0, 8, 1, 9, 4, 12, 5, 13);
  const F8 cd_x = __builtin_shufflevector(c, d, 0, 8, 1, 9, 4, 12, 5, 13);
  const F8 ab_yz = __builtin_shufflevector(a, b, 2, 10, 3, 11, 6, 14, 7, 15);
  const F8 cd_yz = __builtin_shufflevector(c, d, 2, 10, 3, 11, 6, 14, 7, 15);
  return {__builtin_shufflevector(ab_x, cd_x, 2, 3, 10, 11, 6, 7, 14, 15),
          __builtin_shufflevector(ab_yz, cd_yz, 0, 1, 8, 9, 4, 5, 12, 13),
          __builtin_shufflevector(ab_yz, cd_yz, 2, 3, 10, 11, 6, 7, 14, 15)};
}

/// A corner of eight items, about the origin.
FAIRLEAD_INLINE V8 eight_corners(const TreeView& tree, const std::uint32_t (&item)[8], int corner) {
  const std::byte* at[8];
  for (int lane = 0; lane < 8; ++lane) at[lane] = corner_at(tree.items, item[lane], corner);
  if (!tree.items.wide) {
    const float origin[3] = {static_cast<float>(tree.origin[0]), static_cast<float>(tree.origin[1]),
                             static_cast<float>(tree.origin[2])};
    return minus(transposed(at), all(origin));
  }
  float c[3][8];
  for (int lane = 0; lane < 8; ++lane) {
    double wide[3];
    __builtin_memcpy(wide, at[lane], sizeof wide);
    for (int k = 0; k < 3; ++k) c[k][lane] = static_cast<float>(wide[k] - tree.origin[k]);
  }
  return {loaded(c[0]), loaded(c[1]), loaded(c[2])};
}

/// Measures those items of a block that may be nearest, the most promising first.
void search_block(const TreeView& tree, std::uint32_t block, Sought& sought) {
  static_assert(per_block == 8);
  const std::uint32_t begin = block * per_block;
  const std::uint32_t size = tree.items.count - begin < per_block ? tree.items.count - begin : per_block;
  std::uint32_t items[per_block];
  for (std::uint32_t i = 0; i < per_block; ++i) {
    const std::uint32_t place = begin + (i < size ? i : size - 1);
    items[i] = tree.order != nullptr ? tree.order[place] : place;
  }
  F8 found;
  if (tree.items.corners == 1) {
    found = point_bounds(eight_corners(tree, items, 0), sought);
  } else {
    const V8 corner[3] = {eight_corners(tree, items, 0), eight_corners(tree, items, 1), eight_corners(tree, items, 2)};
    found = triangle_bounds(corner, sought);
  }
  float bounds[per_block];
  __builtin_memcpy(bounds, &found, sizeof bounds);
  for (unsigned open = within_reach(found, sought) & ((1U << size) - 1); open != 0;) {
    unsigned next = static_cast<unsigned>(__builtin_ctz(open));
    for (unsigned others = open & (open - 1); others != 0; others &= others - 1) {
      const auto other = static_cast<unsigned>(__builtin_ctz(others));
      next = bounds[other] < bounds[next] ? other : next;
    }
    if (bounds[next] > sought.reach2) return;
    sought.measure(sought.state, items[next]);
    open &= ~(1U << next);
  }
}

struct Waiting {
  float bound2;
  int level;  // -1: a place of a block
  std::uint32_t index;
};

}  // namespace

void FAIRLEAD_SEARCH(const TreeView& tree, Sought& sought) {
  if (tree.block_count == 0) return;
  Waiting stack[8 * 16];  // of 2^32 items the tree has no more than ten levels, and each leaves at most seven waiting
  int waiting = 0;
  stack[waiting++] = {0, tree.level_count - 1, 0};
  while (waiting > 0) {
    const Waiting now = stack[--waiting];
    if (now.bound2 > sought.reach2) continue;
    if (now.level < 0) {
      search_block(tree, tree.blocks[now.index], sought);
      continue;
    }
    const F8 found = box_bounds(tree.nodes[tree.levels[now.level] + now.index], sought);
    float bounds[8];
    __builtin_memcpy(bounds, &found, sizeof bounds);
    const std::uint32_t below = now.level == 0 ? tree.block_count : tree.levels[now.level] - tree.levels[now.level - 1];
    const std::uint32_t first = 8 * now.index, left = below - first, children = left < 8 ? left : 8;
    const int bottom = waiting;  // the nearest child goes on top
    for (unsigned open = within_reach(found, sought) & ((1U << children) - 1); open != 0; open &= open - 1) {
      const auto child = static_cast<unsigned>(__builtin_ctz(open));
      const float bound2 = bounds[child];
      int at = waiting++;
      for (; at > bottom && stack[at - 1].bound2 < bound2; --at) stack[at] = stack[at - 1];
      stack[at] = {bound2, now.level - 1, first + child};
    }
  }
}

}  // namespace fairlead::sites

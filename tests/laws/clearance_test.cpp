// Gaps against brute force: at many instants solved anew, many points of one thing against the whole of the other.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "tests/laws/dense.hpp"
#include "tests/laws/generator.hpp"
#include "tests/laws/seeds.hpp"

namespace fairlead::laws {
namespace {

using clearance::Thing;
using Points = std::vector<Point3>;

/// Of a point from a solid, by the solid's own definition; within it 0, beneath a plane negative.
double distance(Point3 p, const clearance::Box& box) {
  const Vec3 d = p - box.centre;
  const auto beyond = [](double coordinate, double half) { return std::max(std::abs(coordinate) - half, 0.0); };
  return norm(
      {beyond(dot(d, box.x), box.half_m.x), beyond(dot(d, box.y), box.half_m.y), beyond(dot(d, box.z), box.half_m.z)});
}
double distance(Point3 p, const clearance::Post& post) {
  const Vec3 axis = unit(post.to - post.from);
  const double along = dot(p - post.from, axis), length = norm(post.to - post.from);
  const double aside = norm(p - post.from - along * axis);
  return std::hypot(std::max({-along, along - length, 0.0}), std::max(aside - post.radius_m, 0.0));
}
double distance(Point3 p, const clearance::Plane& plane) { return dot(p - plane.through, plane.normal); }
double distance(const Points& points, const clearance::Shape& shape) {
  double least = std::numeric_limits<double>::infinity();
  for (const Point3 p : points)
    least = std::min(least, std::visit([p](const auto& solid) { return distance(p, solid); }, shape));
  return least;
}

/// Points all over the faces of a box, no two neighbours farther apart than that; its corners are among them.
Points over(const clearance::Box& box, double apart_m) {
  const auto steps = [&](double half) { return std::max(1, static_cast<int>(std::ceil(2 * half / apart_m))); };
  const int n[3] = {steps(box.half_m.x), steps(box.half_m.y), steps(box.half_m.z)};
  Points points;
  for (int i = 0; i <= n[0]; ++i)
    for (int j = 0; j <= n[1]; ++j)
      for (int k = 0; k <= n[2]; ++k) {
        if (i % n[0] && j % n[1] && k % n[2]) continue;  // inside
        const auto at = [](int step, int of, double half) { return half * (2.0 * step / of - 1); };
        points.push_back(box.centre + at(i, n[0], box.half_m.x) * box.x + at(j, n[1], box.half_m.y) * box.y +
                         at(k, n[2], box.half_m.z) * box.z);
      }
  return points;
}

constexpr double apart_m = 0.12;

/// One instant: where everything is that is looked at here.
class Instant {
 public:
  Instant(const Rig& rig, const Passage& passage, double travel_m)
      : in_(*rig.clearance.inputs), passage_(passage), now_(passage.at(travel_m)) {
    if (in_.rider && passage.acting.rider_weight_N > 0) {
      const clearance::Envelope& e = *in_.rider;
      const double half_up = (e.above_m + e.below_m) / 2;
      rider_ = {now_.pose.rider + (e.above_m - half_up) * rig.frame.up,
                rig.frame.along,
                rig.frame.across,
                rig.frame.up,
                {e.length_m / 2, e.width_m / 2, half_up}};
      rider_points_ = over(rider_, apart_m);
    }
    for (std::size_t b = 0; b < in_.blocks.size(); ++b) {
      const clearance::Box& drawn = *in_.blocks[b];
      const reeving::Placement& placed = now_.lines.blocks[b];
      const clearance::Box box{placed.move(drawn.centre, passage.in.blocks[b].drawn), placed.turn(drawn.x),
                               placed.turn(drawn.y), placed.turn(drawn.z), drawn.half_m};
      block_points_.push_back(over(box, apart_m));
    }
    for (std::size_t l = 0; l < passage.in.lines.size(); ++l) {
      Points& points = line_points_.emplace_back();
      for (int k = 0; k <= passage.in.lines[l].sheaves; ++k) {
        const reeving::Leg leg = passage.leg(now_.lines, l, k);
        const Points curve = hanging_curve(leg, 2 + static_cast<int>(leg.length_m / apart_m));
        points.insert(points.end(), curve.begin(), curve.end());
      }
    }
  }

  /// No less than the distance of the two, and hardly more; none of pairs that are not looked at.
  std::optional<double> gap(const Thing& a, const Thing& b) const {
    const auto is = [](const Thing& thing, Thing::Kind kind) { return thing.kind == kind; };
    const auto index = [](const Thing& thing) { return static_cast<std::size_t>(thing.index); };
    if (is(a, Thing::Kind::rider) && rider_points_.empty()) return std::nullopt;
    if (is(b, Thing::Kind::structure)) {
      const clearance::Shape& shape = in_.structures[index(b)].shape;
      if (is(a, Thing::Kind::rider)) return distance(rider_points_, shape);
      if (is(a, Thing::Kind::block)) return distance(block_points_[index(a)], shape);
      if (is(a, Thing::Kind::line)) return distance(line_points_[index(a)], shape) - radius_m(index(a));
      return std::nullopt;
    }
    if (!is(a, Thing::Kind::rider)) return std::nullopt;
    if (is(b, Thing::Kind::block)) return distance(block_points_[index(b)], rider_);
    if (is(b, Thing::Kind::line)) return distance(line_points_[index(b)], rider_) - radius_m(index(b));
    if (is(b, Thing::Kind::frame)) return distance(over(*in_.sheaves[index(b)].frame, apart_m), rider_);
    return std::nullopt;
  }

 private:
  double radius_m(std::size_t line) const { return passage_.in.lines[line].diameter_m / 2; }

  const clearance::Inputs& in_;
  const Passage& passage_;
  reeving::Station now_;
  clearance::Box rider_;
  Points rider_points_;
  std::vector<Points> block_points_, line_points_;
};

/// Pairs of which nothing is left out: within reach of where two meet, brute force would see what a gap does not.
std::vector<const clearance::Gap*> whole_gaps(const clearance::Clearances& clear) {
  std::vector<const clearance::Gap*> whole;
  for (const clearance::Gap& gap : clear.gaps) {
    const auto left_out = [&](const clearance::Exclusion& e) {
      return (e.a == gap.a && e.b == gap.b) || (e.a == gap.b && e.b == gap.a);
    };
    if (std::none_of(clear.excluded.begin(), clear.excluded.end(), left_out)) whole.push_back(&gap);
  }
  return whole;
}

TEST(Clearances, NeverExceedBruteForceAndAreNoFiction) {
  int held = 0;
  for (const unsigned seed : seeds(16)) {
    const Rig rig = solve(sensible_layout(seed), {}, {0.06, 3e-3});
    ASSERT_TRUE(rig.clearance.solved()) << seed;
    const auto gaps = whole_gaps(*rig.clearance.solved());
    std::vector<double> least(gaps.size(), std::numeric_limits<double>::infinity());
    constexpr double step_m = 0.15;
    Draw draw(seed);
    for (const int s : rig.clearance.inputs->sweeps) {
      const Passage passage(rig, static_cast<std::size_t>(s));
      for (double x = passage.from_m(); x < passage.to_m(); x += draw.between(0.5, 1) * step_m) {
        const Instant instant(rig, passage, x);
        for (std::size_t i = 0; i < gaps.size(); ++i)
          if (const auto gap = instant.gap(gaps[i]->a, gaps[i]->b)) least[i] = std::min(least[i], *gap);
      }
    }
    for (std::size_t i = 0; i < gaps.size(); ++i) {
      if (std::isinf(least[i])) continue;
      SCOPED_TRACE(fmt::format("seed {}: {}.{} and {}.{}", seed, static_cast<int>(gaps[i]->a.kind), gaps[i]->a.index,
                               static_cast<int>(gaps[i]->b.kind), gaps[i]->b.index));
      EXPECT_LE(gaps[i]->least_m.bound, least[i] + 1e-8);
      // Nothing moves faster than a metre and a half per metre of travel; half a step, and half of the grid's diagonal
      // on the surface.
      const double missed_m = 1.5 * step_m / 2 + apart_m * std::sqrt(2.0) / 2;
      // Beside structures a rider is held wherever the wind may have him and from the push-off on, and the instants
      // here are of still air and begin at the redirect.
      const bool elsewhere =
          gaps[i]->a.kind == Thing::Kind::rider && gaps[i]->b.kind == Thing::Kind::structure &&
          (rig.layout.site.wind_across_m_per_s || gaps[i]->travel_m < rig.reeving.inputs->upstream_m);
      if (!elsewhere) {
        EXPECT_GE(std::max(gaps[i]->least_m.value, 0.0), least[i] - missed_m);
      }
      ++held;
    }
  }
  EXPECT_GT(held, 40);
}

}  // namespace
}  // namespace fairlead::laws

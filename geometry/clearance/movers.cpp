#include "geometry/clearance/movers.hpp"

#include <algorithm>
#include <cmath>

namespace fairlead::clearance {
namespace {

/// How far a corner of a box is off when the box takes another's axes.
double corner_off(const Box& a, const Box& b) {
  return a.half_m.x * norm(b.x - a.x) + a.half_m.y * norm(b.y - a.y) + a.half_m.z * norm(b.z - a.z);
}

MovingBox rider_box(const Passage& passage) {
  const Envelope& reach = *passage.inputs.rider;
  const reeving::Inputs& rig = passage.rig;
  Box box{
      {}, rig.along, rig.across, rig.up, {reach.length_m / 2, reach.width_m / 2, (reach.above_m + reach.below_m) / 2}};
  std::vector<Box> at;
  for (int i = 0; i < passage.poses; ++i) {
    box.centre = passage.pose(i).rider + (reach.above_m - reach.below_m) / 2 * rig.up;
    at.push_back(box);
  }
  MovingBox rider(std::move(at));
  for (int i = 0; i + 1 < passage.poses; ++i) rider.stray_m.push_back(passage.stray(i).rider_m);
  return rider;
}

/// What is known within half a metre of the block's point grows in proportion beyond it: the difference between the
/// block's place and its interpolation is affine in the point.
MovingBox block_box(const BlockBox& of, const Passage& passage) {
  const auto& [block, drawn] = of;
  const Point3 point = passage.rig.blocks[static_cast<std::size_t>(block)].drawn;
  std::vector<Box> at;
  for (int i = 0; i < passage.poses; ++i) {
    const reeving::Placement& place = passage.block(i, block).placement;
    at.push_back(
        {place.move(drawn.centre, point), place.turn(drawn.x), place.turn(drawn.y), place.turn(drawn.z), drawn.half_m});
  }
  MovingBox box(std::move(at));
  const double farther = std::max(1., (norm(drawn.centre - point) + norm(drawn.half_m)) / 0.5);
  for (int i = 0; i + 1 < passage.poses; ++i)
    box.stray_m.push_back(farther * passage.stray(i).blocks_m[static_cast<std::size_t>(block)]);
  return box;
}

}  // namespace

template <class BoundsAt>
Swept::Swept(int pieces, int poses, BoundsAt of) : pieces_(pieces) {
  for (int first = 0; first == 0 || first + 1 < poses; first += poses_per_block) {
    const int last = std::min(first + poses_per_block, poses - 1);
    for (int i = 0; i < pieces; ++i) {
      Bounds bounds = of(i, first);
      for (int pose = first + 1; pose <= last; ++pose) bounds = hull(bounds, of(i, pose));
      each_.push_back(bounds);
      if (i == 0) all_.push_back(bounds);
      all_.back() = hull(all_.back(), bounds);
    }
  }
}

Chain::Chain(int points, std::vector<Point3> at) : points_(points), at_(std::move(at)) {
  swept_ = Swept(pieces(), static_cast<int>(at_.size()) / points_,
                 [&](int i, int pose) { return bounds_of(piece(i, pose, 0)); });
}

bool Chain::finite() const {
  return std::all_of(at_.begin(), at_.end(),
                     [](Point3 p) { return std::isfinite(p.x) && std::isfinite(p.y) && std::isfinite(p.z); });
}

MovingBox::MovingBox(std::vector<Box> at) : at_(std::move(at)) {
  for (std::size_t pose = 0; pose + 1 < at_.size(); ++pose) turn_m.push_back(corner_off(at_[pose], at_[pose + 1]));
  swept_ = Swept(1, static_cast<int>(at_.size()),
                 [&](int, int pose) { return bounds_of(at_[static_cast<std::size_t>(pose)]); });
}

Box MovingBox::piece(int, int pose, double share) const {
  Box box = at_[static_cast<std::size_t>(pose)];
  if (share != 0) box.centre = box.centre + share * move(pose);
  return box;
}

void MovingBox::corners(int i, int pose, double share, std::vector<Point3>& out) const {
  const Box box = piece(i, pose, share);
  for (const double x : {-1., 1.})
    for (const double y : {-1., 1.})
      for (const double z : {-1., 1.})
        out.push_back(box.centre + x * box.half_m.x * box.x + y * box.half_m.y * box.y + z * box.half_m.z * box.z);
}

MovingHulls::MovingHulls(int pieces, int each, std::vector<Vec3> corners, std::vector<Point3> at)
    : pieces_(pieces), each_(each), corners_(std::move(corners)), at_(std::move(at)) {
  swept_ =
      Swept(pieces_, static_cast<int>(at_.size()), [&](int i, int pose) { return bounds_of(Hull(piece(i, pose, 0))); });
}

bool MovingHulls::finite() const {
  return std::all_of(corners_.begin(), corners_.end(),
                     [](Vec3 c) { return std::isfinite(c.x) && std::isfinite(c.y) && std::isfinite(c.z); });
}

OwnHull MovingHulls::piece(int i, int pose, double share) const {
  const Vec3* now = corners(i, pose);
  OwnHull hull{at_[static_cast<std::size_t>(pose)], {now, now + each_}};
  if (share == 0) return hull;
  hull.at = hull.at + share * move(pose);
  const Vec3* then = corners(i, pose + 1);
  for (int c = 0; c < each_; ++c) hull.corners[static_cast<std::size_t>(c)] += share * (then[c] - now[c]);
  return hull;
}

std::vector<Vec3> MovingHulls::moves(int i, int pose) const {
  const Vec3 *now = corners(i, pose), *then = corners(i, pose + 1);
  std::vector<Vec3> all;
  for (int c = 0; c < each_; ++c) all.push_back(move(pose) + (then[c] - now[c]));
  return all;
}

void MovingHulls::corners(int i, int pose, double share, std::vector<Point3>& out) const {
  const Vec3* now = corners(i, pose);
  if (share == 0) {
    for (int c = 0; c < each_; ++c) out.push_back(at_[static_cast<std::size_t>(pose)] + now[c]);
    return;
  }
  const OwnHull hull = piece(i, pose, share);
  for (const Vec3& corner : hull.corners) out.push_back(hull.at + corner);
}

Solved<Mover> make(const Recipe& recipe, const Passage& passage) {
  if (const auto* stretch = std::get_if<Stretch>(&recipe)) return hanging_chain(*stretch, passage);
  if (std::holds_alternative<RiderBox>(recipe)) return rider_box(passage);
  const auto of = [](auto solved) -> Solved<Mover> {
    if (!solved) return tl::unexpected(solved.error());
    return std::move(*solved);
  };
  if (std::holds_alternative<SwingingRider>(recipe)) return of(swinging_rider(passage));
  if (const auto* whole = std::get_if<WholeMainLine>(&recipe)) return of(whole_main_line(*whole, passage));
  if (const auto* block = std::get_if<BlockBox>(&recipe)) return block_box(*block, passage);
  if (const auto* shape = std::get_if<Shape>(&recipe))
    return Fixed(*shape, {passage.rig.along, passage.rig.across, passage.rig.up});
  if (const auto* scan = std::get_if<Scan>(&recipe))
    return Scanned(*scan, {passage.rig.along, passage.rig.across, passage.rig.up});
  return of(main_line_chain(passage));
}

}  // namespace fairlead::clearance

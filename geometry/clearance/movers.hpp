// Where the things of one passage are in each of its poses, and how far off straight interpolation between two poses.
#pragma once

#include <array>
#include <variant>
#include <vector>

#include "geometry/clearance/clearance.hpp"
#include "geometry/reeving/line_between.hpp"
#include "geometry/solids/distance.hpp"
#include "geometry/solids/hull.hpp"

namespace fairlead::clearance {

/// The part of a sweep that is looked at.
struct Passage {
  const Inputs& inputs;
  const reeving::Inputs& rig;
  const reeving::SweepInputs& given;
  const reeving::Sweep& sweep;
  int first{}, poses{};  ///< of the sweep's poses
  SideWind wind{};       ///< where rider and main line are held against structures

  const reeving::Pose& pose(int i) const { return sweep.poses[static_cast<std::size_t>(first + i)]; }
  const reeving::Stray& stray(int i) const { return sweep.strays[static_cast<std::size_t>(first + i)]; }
  const reeving::Leg& leg(int i, int leg) const {
    return sweep.legs[static_cast<std::size_t>(first + i) * rig.legs() + static_cast<std::size_t>(leg)];
  }
  const reeving::BlockPlace& block(int i, int block) const {
    return sweep.blocks[static_cast<std::size_t>(first + i) * rig.blocks.size() + static_cast<std::size_t>(block)];
  }
};

/// Poses are looked at in blocks of so many steps: what is far off over a whole block is passed over at once.
inline constexpr int poses_per_block = 16;

/// Where the pieces of something come, block by block.
class Swept {
 public:
  Swept() = default;
  /// of(piece, pose): its bounds at a pose.
  template <class BoundsAt>
  Swept(int pieces, int poses, BoundsAt of);
  const Bounds& operator()(int block, int piece) const {
    return each_[static_cast<std::size_t>(block * pieces_ + piece)];
  }
  const Bounds& operator()(int block) const { return all_[static_cast<std::size_t>(block)]; }

 private:
  int pieces_{};
  std::vector<Bounds> each_, all_;
};

/// A line of a thickness: chords of its curve, in every pose as many.
class Chain {
 public:
  double radius_m{};
  double slack_m{};             ///< most that the curve leaves its chords by
  std::vector<double> stray_m;  ///< after each pose but the last
  std::vector<double> turn_m;   ///< empty: chords move as straight lines do

  /// `at`: pose by pose, `points` of each.
  Chain(int points, std::vector<Point3> at);
  bool finite() const;
  int pieces() const { return points_ - 1; }
  Segment piece(int i, int pose, double share) const { return {point(i, pose, share), point(i + 1, pose, share)}; }
  const Bounds& swept(int block, int i) const { return swept_(block, i); }
  const Bounds& swept(int block) const { return swept_(block); }
  /// How both ends of a piece move from the pose to the next.
  std::array<Vec3, 2> moves(int i, int pose) const { return {move(i, pose), move(i + 1, pose)}; }
  /// Adds points whose hull is the piece.
  void corners(int i, int pose, double share, std::vector<Point3>& out) const {
    out.push_back(point(i, pose, share));
    out.push_back(point(i + 1, pose, share));
  }

 private:
  Point3 at(int i, int pose) const { return at_[static_cast<std::size_t>(pose * points_ + i)]; }
  Vec3 move(int i, int pose) const { return at(i, pose + 1) - at(i, pose); }
  Point3 point(int i, int pose, double share) const {
    return share == 0 ? at(i, pose) : at(i, pose) + share * move(i, pose);
  }

  int points_{};
  std::vector<Point3> at_;
  Swept swept_;
};

/// A box that shifts, and turns a little.
class MovingBox {
 public:
  static constexpr double radius_m = 0, slack_m = 0;
  std::vector<double> stray_m;
  std::vector<double> turn_m;  ///< most that a corner is off, up to the next pose, where the box is shifted only

  explicit MovingBox(std::vector<Box> at);
  int pieces() const { return 1; }
  Box piece(int, int pose, double share) const;
  const Bounds& swept(int block, int = 0) const { return swept_(block); }
  std::array<Vec3, 1> moves(int, int pose) const { return {move(pose)}; }
  void corners(int i, int pose, double share, std::vector<Point3>& out) const;

 private:
  Vec3 move(int pose) const { return at_[pose + 1].centre - at_[pose].centre; }
  std::vector<Box> at_;
  Swept swept_;
};

/// A hull that holds its own corners.
struct OwnHull {
  Point3 at;
  std::vector<Vec3> corners;
  operator Hull() const { return {at, corners}; }
};

/// Hulls whose corners move, in every pose as many.
class MovingHulls {
 public:
  double radius_m{};  ///< all within it belongs to them
  double slack_m{};   ///< most that what they stand for bulges beyond them
  std::vector<double> stray_m;
  std::vector<double> turn_m;  ///< empty: corners move as straight lines do

  /// corners: from `at`, pose by pose; in each pose hull by hull `each` of them.
  MovingHulls(int pieces, int each, std::vector<Vec3> corners, std::vector<Point3> at);
  bool finite() const;
  int pieces() const { return pieces_; }
  OwnHull piece(int i, int pose, double share) const;
  const Bounds& swept(int block, int i) const { return swept_(block, i); }
  const Bounds& swept(int block) const { return swept_(block); }
  std::vector<Vec3> moves(int i, int pose) const;
  void corners(int i, int pose, double share, std::vector<Point3>& out) const;

 private:
  const Vec3* corners(int i, int pose) const {
    return corners_.data() + static_cast<std::ptrdiff_t>(pose * pieces_ + i) * each_;
  }
  Vec3 move(int pose) const { return at_[static_cast<std::size_t>(pose) + 1] - at_[static_cast<std::size_t>(pose)]; }
  int pieces_{}, each_{};
  std::vector<Vec3> corners_;
  std::vector<Point3> at_;
  Swept swept_;
};

/// What stands still.
class Fixed {
 public:
  static constexpr double radius_m = 0, slack_m = 0;
  std::vector<double> stray_m, turn_m;  ///< empty

  /// axes: unit, square to each other; what moves goes along the first more or less.
  explicit Fixed(Shape shape, const std::array<Vec3, 3>& axes = {Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}})
      : shape_(shape), bounds_(bounds_of(shape)), axes_(axes) {}
  int pieces() const { return 1; }
  const Shape& piece(int, int, double) const { return shape_; }
  const std::array<Vec3, 3>& axes() const { return axes_; }
  const Bounds& swept(int, int = 0) const { return bounds_; }
  std::array<Vec3, 1> moves(int, int) const { return {}; }

 private:
  Shape shape_;
  Bounds bounds_;
  std::array<Vec3, 3> axes_;
};

/// A scan, which stands still.
class Scanned {
 public:
  static constexpr double radius_m = 0, slack_m = 0;
  std::vector<double> stray_m, turn_m;  ///< empty

  /// axes: unit, square to each other; what moves goes along the first more or less.
  Scanned(std::shared_ptr<const sites::Site> site, const std::array<Vec3, 3>& axes)
      : site_(std::move(site)), bounds_(site_->bounds()), axes_(axes) {}
  int pieces() const { return 1; }
  const sites::Site& piece(int, int, double) const { return *site_; }
  const std::array<Vec3, 3>& axes() const { return axes_; }
  const Bounds& swept(int, int = 0) const { return bounds_; }
  std::array<Vec3, 1> moves(int, int) const { return {}; }

 private:
  std::shared_ptr<const sites::Site> site_;
  Bounds bounds_;
  std::array<Vec3, 3> axes_;
};

using Mover = std::variant<Chain, MovingBox, MovingHulls, Fixed, Scanned>;

/// A leg, or what is left of it: lengths are straight, measured at every pose. Where less than nothing would be left,
/// the point between the two ends that are skipped.
struct Stretch {
  int leg{};
  double skip_from_m{}, skip_to_m{};
  double keep_m{};  ///< > 0: only so much, from its first end
  bool operator==(const Stretch&) const = default;
};
struct MainLineCurve {
  bool operator==(const MainLineCurve&) const = default;
};
/// The main line from support to support, wherever the wind may have it; less Inputs::meeting_m at an end that is tied
/// to what it is held against.
struct WholeMainLine {
  bool tied_at_start{}, tied_at_end{};
  bool operator==(const WholeMainLine&) const = default;
};
/// The rider's envelope, upright.
struct RiderBox {
  bool operator==(const RiderBox&) const = default;
};
/// What a rider can reach in every lean at once, and wherever the wind may have him.
struct SwingingRider {
  bool operator==(const SwingingRider&) const = default;
};
/// A box that goes along with a block, as it is drawn.
struct BlockBox {
  int block{};
  Box drawn;
  bool operator==(const BlockBox&) const = default;
};
using Scan = std::shared_ptr<const sites::Site>;
using Recipe = std::variant<Stretch, MainLineCurve, WholeMainLine, RiderBox, SwingingRider, BlockBox, Shape, Scan>;

Solved<Mover> make(const Recipe&, const Passage&);
/// The parts of make that take more than a line.
Chain hanging_chain(const Stretch&, const Passage&);
Solved<MovingHulls> swinging_rider(const Passage&);
Solved<Chain> main_line_chain(const Passage&);
Solved<MovingHulls> whole_main_line(const WholeMainLine&, const Passage&);

/// The leans a rider is held in at a pose: of the steps of travel that its neighbours and what lies between them touch;
/// none before contact.
Leans leans_at(const Passage&, int pose);

/// Along, across and up from the wheel, upright.
std::vector<Vec3> corners_of(const Envelope&);

/// What the main line carries at a pose: the rider, and the trolley less its line's upward pull. `near`: of the pose
/// before.
Solved<mainline::Shape> main_line_at(const Passage&, const reeving::Pose&, const mainline::Shape* near);
/// Of the main line on its way from a pose to the next, between their shapes: under the rider's weight, the trolley's
/// wheel as its stray says.
reeving::LineBetween main_line_between(const Passage&, int pose, const mainline::Shape& from, const mainline::Shape& to,
                                       const reeving::LeftOut&);
/// What a chord of a metre's reach leaves the curve by: an eighth of its greatest curvature, w T / H2.
double bulge_per_m2(const mainline::Cable&, const mainline::Shape&);

/// A chord may leave its curve by this share of the resolution, unless that takes more than most_chords.
inline constexpr double chord_share = 0.5;
inline constexpr int most_chords = 64;
/// How many, where one would leave it by bulge_m and n leave it by bulge_m / n2.
int chords_for(double bulge_m, const Inputs&);

}  // namespace fairlead::clearance

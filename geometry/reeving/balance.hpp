// What must balance at a pose, and how it answers everything that is unknown there.
//
// Unknown: the weight W on the trolley's wheel; of every block its shift and its turn, where its joint leaves them; of
// every line its tension. The trolley's height follows from W (the main line), the contacts of every leg from
// the rest (contact.hpp). To balance:
//  - trolley: W + the lines' upward pull - its weight = 0;
//  - each block: pulls, loads of the wraps, weight: their sum where it shifts, and their moment about its own point
//    where it turns = 0;
//  - each line, by its closing: T - retraction(E) or T - held = 0; unstretched length - its own = 0; or, in the rest
//    position, the block's place along - Block::rest_m = 0.
// Places are counted from the rig's origin while it is solved, so that nothing is lost far from the site's.
#pragma once

#include <array>

#include "geometry/reeving/dense.hpp"
#include "geometry/reeving/station.hpp"
#include "geometry/reeving/wheel.hpp"

namespace fairlead::reeving {

inline constexpr int most_blocks = 8;

/// The unknowns of a pose.
struct Unknowns {
  double carried_N{};
  std::array<Placement, most_blocks> blocks;
  std::array<double, Square::most> tension_N;
};

class Balance {
 public:
  /// The station is worked on in place; its vectors get their sizes. `in` fits (see `unfit`).
  Balance(const Inputs& in, const SweepInputs&, const Outlet&, double travel_m, Station&);

  /// Share of radii and line loads that counts: 0 is the rig with point sheaves on weightless lines.
  void count(double share);
  /// Whether blocks that nothing holds may turn.
  void release(bool turning);

  int size() const { return size_; }
  Unknowns unknowns() const;
  void set(const Unknowns&);
  /// Adds `part` of a step, in this class's own measures: forces by force_N(), shifts and turns by m and rad.
  void advance(std::span<const double> step, double part);
  /// Longest part of a step (up to 1) that keeps tensions, W and moves within what a linear answer may be trusted for.
  double allowed(std::span<const double> step) const;

  /// Hangs main line and lines at the unknowns as they are, and weighs what is out of balance. Unsolved where one of
  /// them cannot hang.
  tl::expected<void, Unsolved> hang();
  /// What is out of balance: forces by force_N(), moments by that times 1 m, lengths by 1 m.
  std::span<const double> residual() const { return {residual_.data(), static_cast<std::size_t>(size_)}; }
  /// How the residual answers the unknowns (after `hang`), and per metre of travel. In the rest position a line that
  /// closes on a block's place may be taken with the length it has there instead: as the rig is from then on.
  void answer(Square& jacobian, bool lengths_found = false);
  std::span<const double> per_travel() const { return {per_travel_.data(), static_cast<std::size_t>(size_)}; }
  /// Line drawn out of the unit for such a change of all unknowns, and for a metre of travel alone.
  double drawn(std::span<const double> change, double travel_m) const;

  double force_N() const { return force_N_; }
  double weight_N() const { return weight_N_; }
  bool moving() const { return travel_m_ >= 0; }
  int first_of(int block) const { return first_[block]; }
  /// A block's unknowns: its shifts (3 or none), then its turns about these axes (3, 1 or none).
  int shifts(int block) const { return in_.blocks[block].shifts() ? 3 : 0; }
  int turns(int block) const { return turning_ ? in_.blocks[block].turns() : 0; }
  int freedoms(int block) const { return shifts(block) + turns(block); }
  Vec3 turn_axis(int block, int turn) const {
    constexpr Vec3 axes[] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    return in_.blocks[block].joint == Joint::hinge ? in_.blocks[block].hinge_axis : axes[turn];
  }
  /// The move that a block's part of a change of all unknowns makes.
  Move move_of(int block, std::span<const double> change) const;
  int tension_of(int line) const { return size_ - static_cast<int>(in_.lines.size()) + line; }
  /// The block whose place at rest stands for this line's closing; -1 where none does.
  int rest_block(int line) const;
  bool resting() const { return outlet_.unstretched_m.empty(); }
  double own_length_m(int line) const;
  double extension_m() const;
  const mainline::Wheel& wheel() const { return at_.shape.wheels[loads_ - 1]; }
  std::span<const mainline::Load> loads() const { return {load_.data(), static_cast<std::size_t>(loads_)}; }
  /// Sums of the forces on a block, and of their moments about its own point: what its joint holds where they are not
  /// zero.
  Vec3 pull_N(int block) const { return pull_[block]; }
  Vec3 moment_N_m(int block) const { return moment_[block]; }
  const WheelResponse<double>& wheel_gives() const { return wheel_gives_; }
  /// The rig's own places back to the site's.
  void to_site() { shift_places(in_.origin - Point3{}); }

 private:
  /// What one unknown moves: rigid moves of a body, about its own point.
  struct Freedom {
    int column;
    Move move;
  };
  struct Freedoms {
    int count{};
    std::array<Freedom, 7> each;
  };
  /// A force of a line on a body, from where its arm counts.
  struct Applied {
    Body body;
    Vec3 arm, force_N;
  };
  /// A sheave's wrap.
  struct Wrap {
    Sheave placed;
    Vec3 middle;  ///< unit radius to the middle of the arc
    double toward{},
        toward_half{};  ///< its centroid's distance from the centre per radius, and per radian of half wrap
    Applied load;
    double unstretched_share{};
  };
  tl::expected<void, Unsolved> stand();
  void weigh(int line);
  void close_line(int line);
  void shift_places(Vec3);
  Point3 own_point(Body body) const { return body >= 0 ? at_.lines.blocks[body].at : at_.lines.attachment; }
  Wrap wrap(int line, int sheave) const;
  void add_force(const Applied&);
  double& entry(int row, int column) { return column == along_travel ? per_travel_[row] : (*jacobian_)(row, column); }
  Freedoms freedoms_of(Body) const;
  void answer_leg(int line, int leg);
  void answer_wrap(int line, int sheave);
  void close_rows(bool lengths_found);
  void scale();
  /// How a force on a body answers: turned with it, its arm and itself changed.
  void vary_force(int column, const Applied&, Vec3 turn, Vec3 arm_change, Vec3 force_change);

  static constexpr int along_travel = -1;
  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  double travel_m_;
  Station& at_;
  double share_ = 1;
  bool turning_ = true;
  int size_{}, loads_{};
  double weight_N_{}, force_N_{};
  std::array<mainline::Load, 2> load_;
  std::array<int, most_blocks> first_{};
  std::array<Vec3, most_blocks> pull_{}, moment_{};  ///< sums on each block, moments about its own point
  WheelResponse<double> wheel_gives_{};
  Square* jacobian_{};
  std::array<double, Square::most> residual_, per_travel_, drawn_;
  double drawn_per_travel_{};
};

/// Why a rig's equations do not make a whole, or are more than is solved for; nothing where they fit.
std::optional<Unsolved> unfit(const Inputs&);

}  // namespace fairlead::reeving

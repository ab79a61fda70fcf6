// What must balance at a pose, and how it answers everything that is unknown there.
//
// Unknown: the weight W on the trolley's wheel; of every block its shift and, where nothing holds its attitude, its
// turn; of every line its tension. The trolley's height follows from W (the main line), the contacts of every leg from
// the rest (contact.hpp). To balance:
//  - trolley: W + the line's upward pull - its weight = 0;
//  - each block: pulls, loads of the wraps, weight: their sum and, where it turns freely, their moment about its own
//    point = 0;
//  - each line, by its closing: T - retraction(E) or T - held = 0; unstretched length - its own = 0; or, in the rest
//    position, the block's place along - Block::rest_m = 0.
#pragma once

#include <array>
#include <span>

#include "geometry/reeving/dense.hpp"
#include "geometry/reeving/station.hpp"
#include "geometry/reeving/wheel.hpp"

namespace fairlead::reeving {

inline constexpr int most_blocks = 4, most_lines = 7;

class Balance {
 public:
  /// The station is worked on in place: its carried_N, blocks and tensions are the unknowns, and its vectors have their
  /// sizes. An Outlet without lengths is the rest position itself, in which they are found.
  Balance(const Inputs& in, const SweepInputs&, const Outlet&, double travel_m, Station&);

  int size() const { return size_; }
  bool moving() const { return travel_m_ >= 0; }
  double weight_N() const { return weight_N_; }
  double force_N() const { return force_N_; }  ///< residuals of forces count in it, and tensions and W in a step
  int first_of(int block) const { return first_[static_cast<std::size_t>(block)]; }
  int freedoms(int block) const { return in_.blocks[static_cast<std::size_t>(block)].attitude_held ? 3 : 6; }
  int tension_of(int line) const { return size_ - static_cast<int>(in_.lines.size()) + line; }

  /// Hangs main line and lines at the unknowns as they are, and weighs what is out of balance.
  tl::expected<void, Unsolved> hang();
  /// Forces by force_N(), moments by that times 1 m, lengths by 1 m.
  std::span<const double> residual() const { return {residual_.data(), static_cast<std::size_t>(size_)}; }
  /// After `hang`: how the residual answers the unknowns, and per metre of travel.
  void answer(Square& jacobian);
  std::span<const double> per_travel() const { return {per_travel_.data(), static_cast<std::size_t>(size_)}; }
  /// Line drawn out of the unit for such a change of all unknowns, and for `travel_m` of travel.
  double drawn_out_m(std::span<const double> change, double travel_m) const;
  /// Adds a step to the unknowns.
  void advance(std::span<const double> step);

  double extension_m() const;
  double slope_per_metre() const { return wheel_gives_.dz_dx; }
  double slope_per_newton() const { return wheel_gives_.dz_dW_m_per_N; }
  const mainline::Wheel& wheel() const { return at_.shape.wheels[static_cast<std::size_t>(count_ - 1)]; }
  std::span<const mainline::Load> loads() const { return {load_.data(), static_cast<std::size_t>(count_)}; }
  Vec3 moment_N_m(int block) const { return moment_N_m_[static_cast<std::size_t>(block)]; }

 private:
  Vec3 load_of(int line) const;  ///< N per metre of it
  bool resting() const { return outlet_.unstretched_m.empty(); }
  double own_length_m(int line) const;
  tl::expected<void, Unsolved> stand();
  void weigh();
  void pull(Body, Point3 at, Vec3 force_N);
  void answer_leg(int line, int leg);
  void answer_wrap(int line, int sheave);
  void vary_leg(int line, int leg, int column, const Move& from, const Move& to, double tension_N);
  void slide_wrap(int line, int sheave, int column, double off_less_on, double on_and_off);
  void vary_pull(Body, int column, Vec3 arm, Vec3 arm_change, Vec3 force_N, Vec3 force_change);
  void close_lines();
  template <class Use>
  void each_freedom(Body, Point3 centre, Use) const;
  double& entry(int row, int column) {
    return column < 0 ? per_travel_[static_cast<std::size_t>(row)] : (*jacobian_)(row, column);
  }
  double& length_row(int line, int column) {
    const auto l = static_cast<std::size_t>(line);
    return column < 0 ? length_per_travel_[l] : length_per_[l][static_cast<std::size_t>(column)];
  }
  Point3 point_of(Body b) const { return at_.lines.blocks[static_cast<std::size_t>(b)].at; }

  struct Wrap {
    Vec3 load_N, middle_e, arm;  // arm: of the load's centre from the sheave's
    double toward{}, toward_per_half{};
  };
  Wrap wrap_of(int line, const Sheave&, int sheave) const;

  const Inputs& in_;
  const SweepInputs& sweep_;
  const Outlet& outlet_;
  double travel_m_;
  Station& at_;
  int size_{}, count_{};
  double weight_N_{}, force_N_{};
  std::array<mainline::Load, 2> load_;
  std::array<int, most_blocks> first_{};
  std::array<Vec3, most_blocks> pull_N_{}, moment_N_m_{};
  WheelResponse<double> wheel_gives_{};
  Square* jacobian_{};
  using Column = std::array<double, Square::most>;
  Column residual_{}, per_travel_{};
  std::array<Column, most_lines> length_per_{};  ///< of each line's unstretched length
  std::array<double, most_lines> length_per_travel_{};
};

}  // namespace fairlead::reeving

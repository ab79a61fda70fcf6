// The rates of all unknowns of a rig over a box: linear equations whose coefficients lie in bands.
#pragma once

#include "geometry/reeving/interval_legs.hpp"
#include "geometry/reeving/linear_band.hpp"
#include "geometry/reeving/wheel.hpp"

namespace fairlead::reeving {

/// Per metre of travel; upstream of the mark per metre of the resting trolley's height.
struct BandRates {
  Band height, extension;
  std::vector<Band3> shift, turn;  ///< of every block
  std::vector<Band> tension_N;     ///< of every line
};

/// Unknown: the trolley's height where it moves, the extension, every block's shift and turn, every line's tension.
class IntervalRates {
 public:
  IntervalRates(const Inputs&, bool moving);

  /// False where nothing is known. Of what the main line answers at the trolley's wheel over the box; `slope`: of the
  /// retraction over it, 0 where the tension is held.
  bool solve(const IntervalLegs&, Box&, const WheelResponse<Band>&, Band slope, BandRates& rates);
  /// How a leg's bodies move at these rates.
  LegMotion motion_of(const LegOver&, const BandRates&) const;
  Band3 shift_of(Body, const Band3& arm, const BandRates&) const;
  /// Of a leg's tension along it.
  Band tension_rate(const LegOver&, const IntervalLegs&, const BandRates&) const;

 private:
  /// Columns in which a body moves; the last column of all is the travel, or upstream the trolley's height.
  struct Columns {
    int count = 0;
    int each[6];
  };
  Columns columns_of(Body) const;
  int first_of(Body block) const { return first_[static_cast<std::size_t>(block)]; }
  int shifts(Body block) const { return in_.blocks[static_cast<std::size_t>(block)].shifts() ? 3 : 0; }
  int turns(Body block) const { return in_.blocks[static_cast<std::size_t>(block)].turns(); }
  int freedoms(Body block) const { return shifts(block) + turns(block); }
  Vec3 turn_axis(Body block, int turn) const;
  int extension() const { return moving_ ? 1 : 0; }
  int tension_of(std::size_t line) const { return unknowns_ - static_cast<int>(in_.lines.size() - line); }
  /// Of a point on the body for a unit of the column.
  Band3 shift_for(Body, int column, const Band3& arm) const;
  Vec3 turn_for(Body, int column) const;
  LegMotion motion_for(const LegOver&, int column) const;

  Band& at(int row, int column) { return system_.at(static_cast<std::size_t>(row), static_cast<std::size_t>(column)); }
  Band& length(std::size_t line, int column) {
    return length_[line * static_cast<std::size_t>(unknowns_ + 1) + static_cast<std::size_t>(column)];
  }
  void add(int first_row, int column, const Band3& v);
  void add_moment(Body, int column, const Band3& moment_N_m);
  void add_column(const LegOver&, int column, const LegMotion&, Band tension_N, const WheelResponse<Band>&,
                  const IntervalLegs&, Box&);
  template <class Use>
  void each_raised(const LegOver&, Use use) const;
  void add_raised(const LegOver&, const WheelResponse<Band>&, const IntervalLegs&, Box&);
  void add_wraps(const IntervalLegs&, Box&);
  void add_weights(const IntervalLegs&, Box&);
  void close(Band slope);

  const Inputs& in_;
  bool moving_;
  int unknowns_{};
  std::vector<int> first_;
  std::vector<Vec3> hinge_;  ///< per block, in the rig's axes; zero without one
  LinearBand system_;
  std::vector<Band> length_, solved_;
};

}  // namespace fairlead::reeving

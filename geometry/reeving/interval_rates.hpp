// The rates of all unknowns of a rig over a box: linear equations whose coefficients lie in bands.
#pragma once

#include "geometry/reeving/interval_legs.hpp"
#include "geometry/reeving/linear_band.hpp"

namespace fairlead::reeving {

/// Per metre of travel; upstream of the mark per metre of the resting trolley's height.
struct BandRates {
  Band height;
  std::vector<Band3> shift, turn;  ///< of every block
  std::vector<Band> tension_N;     ///< of every line
  Band extension;
};

/// What the main line answers at the trolley's wheel, over the box.
struct WheelOver {
  Band dz_dx, dz_dW_m_per_N;
  Band tension_level_N_per_m, tension_steep_N_per_m;  ///< of the main line's tension: along, and by slope
};

class IntervalRates {
 public:
  IntervalRates(const Inputs&, bool moving);

  /// False where nothing is known. `slope`: of the retraction over the box; 0 where the tension is held.
  bool solve(IntervalLegs&, Box&, const WheelOver&, Band slope, BandRates& rates);
  /// How a body moves at a leg's end, at these rates.
  EndMotion motion_of(Body, const EndBand&, const BandRates&) const;

 private:
  int first_of(Body block) const { return first_[static_cast<std::size_t>(block)]; }
  int freedoms(Body block) const { return in_.blocks[static_cast<std::size_t>(block)].attitude_held ? 3 : 6; }
  int tension_of(int line) const { return unknowns_ - static_cast<int>(in_.lines.size()) + line; }
  std::vector<int> columns_of(Body) const;
  EndMotion unit_motion(Body, const EndBand&, int column) const;
  void add_leg(const LegOver&, IntervalLegs&, Box&, const WheelOver&);
  void add_column(const LegOver&, int column, const EndMotion& from, const EndMotion& to, double newton,
                  const WheelOver&, IntervalLegs&, Box&);
  void add_force(Body, int column, const EndBand&, const Band3& change, const Band3& force, const EndMotion& own,
                 bool is_own, const LegAnswer::Slide&, Band turn);
  void add_wraps(IntervalLegs&, Box&);
  void add_weights(IntervalLegs&, Box&);
  void close(Band slope);
  Band& length(int line, int column) {
    return length_[static_cast<std::size_t>(line) * static_cast<std::size_t>(unknowns_ + 1) +
                   static_cast<std::size_t>(column)];
  }

  const Inputs& in_;
  bool moving_;
  int unknowns_{};
  std::vector<int> first_;
  LinearBand system_;
  std::vector<Band> length_, solved_;
};

}  // namespace fairlead::reeving

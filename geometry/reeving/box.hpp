// Every unknown of a pose in a band: what a bound between two poses is proven on.
#pragma once

#include <vector>

#include "geometry/reeving/band.hpp"
#include "geometry/reeving/sweep.hpp"

namespace fairlead::reeving {

/// Places count from those at the first pose, in the rig's axes (along, across, up).
class Box {
 public:
  explicit Box(const Inputs& in)
      : lines_(in.lines.size()),
        blocks_(in.blocks.size()),
        bands_(5 + lines_ + 6 * blocks_ + 2 * in.sheaves.size(), Band(0)) {}

  Band& height_m() { return bands_[0]; }    ///< of the trolley's wheel, from the origin
  Band& wheel_N() { return bands_[1]; }     ///< the main line's tension there
  Band& up_slope() { return bands_[2]; }    ///< dz per metre away from it, upstream
  Band& down_slope() { return bands_[3]; }  ///< and downstream
  Band& extension_m() { return bands_[4]; }
  Band& tension_N(std::size_t line) { return bands_[5 + line]; }                     ///< at its datum
  Band* shift_m(std::size_t block) { return &bands_[5 + lines_ + 6 * block]; }       ///< three, from the first pose
  Band* turn_rad(std::size_t block) { return &bands_[5 + lines_ + 6 * block + 3]; }  ///< three, from the first pose
  /// On and off of every sheave: angle about the axle from where the contact stands at the first pose.
  Band& contact_rad(std::size_t i) { return bands_[5 + lines_ + 6 * blocks_ + i]; }

  bool encloses(const Box& inner) const {
    bool all = true;
    for (std::size_t i = 0; i < bands_.size(); ++i) all = all && bands_[i].encloses(inner.bands_[i]);
    return all;
  }
  template <class Do>
  void each(const Box& other, Do combine) {
    for (std::size_t i = 0; i < bands_.size(); ++i) bands_[i] = combine(bands_[i], other.bands_[i]);
  }
  void fill(Band band) { std::fill(bands_.begin(), bands_.end(), band); }

 private:
  std::size_t lines_, blocks_;
  std::vector<Band> bands_;
};

}  // namespace fairlead::reeving

// What a record says: greatest values, low-passed and held ones.
#pragma once

#include <vector>

#include "geometry/arrest/motion.hpp"

namespace fairlead::arrest {

/// What one motion was seen to be.
struct Record {
  double step_s = record_step_s;
  std::vector<Instant> instants;       ///< every step_s
  std::vector<Instant> edges;          ///< before and after every event
  std::vector<std::size_t> pieces{0};  ///< where in the instants each stretch between two events begins
};

/// Fills in the peaks of the motion, and the low-passed load of every instant.
void judge_record(Record&, double rider_weight_N, Motion&);

/// Of the peaks only the greatest extension.
void judge_extension(const Record&, Motion&);

/// 2nd-order Butterworth low-pass (bilinear, prewarped), run forward and backward: no lag, and half the power at
/// cut_off_Hz passes twice. The record is continued by `at_rest` before and after, for as long as the filter remembers.
std::vector<double> low_passed(const std::vector<double>& record, double step_s, double cut_off_Hz, double at_rest);

/// Greatest value that the record nowhere falls below for hold_s, with the time at which the holding begins. NaN where
/// the record is shorter.
Peak greatest_held(const std::vector<double>& record, double step_s, double hold_s);

/// Greatest value, through the parabola of three samples.
Peak greatest(const std::vector<double>& record, double step_s);

}  // namespace fairlead::arrest

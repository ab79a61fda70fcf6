// What an author knows of the worked line: stiffness and tension within a range, measured at its start.
#pragma once

#include "geometry/mainline/states.hpp"

namespace fairlead::mainline {

inline Inputs rigged() {
  Inputs in;
  in.span_m = 220;
  in.rise_m = -14;
  in.mass_kg_per_m = 1.05;
  in.compliance_per_N = {1 / 12e6, 1 / 10e6};
  in.expansion_per_K = 12e-6;
  in.known = Inputs::Known::tension;
  in.measure = {14e3, 15e3};
  in.measured_at = MeasuredAt::start;
  in.measured_K = 288.15;
  in.coldest_K = 263.15;
  in.warmest_K = 313.15;
  in.empty_kg = 4;
  in.lightest_kg = 36.5;
  in.heaviest_kg = 126.5;
  in.path_from_m = 150;
  in.path_to_m = 212;
  return in;
}

}  // namespace fairlead::mainline

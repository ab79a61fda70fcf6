// A register that says something of every part of a layout.
#pragma once

#include "geometry/records/records.hpp"

namespace fairlead::sheets {

inline RecordsInput demo_register(const Layout& layout) {
  RecordsInput input;
  for (const std::string& part : parts_in_service(layout))
    input.parts.push_back({.part = part,
                           .serial = "S-" + part,
                           .batch = {},
                           .in_service = Date{2024, 4, 12},
                           .retire_by = Date{2034, 4, 12},
                           .inspect_by = Date{2026, 10, 29},
                           .cycles = {},
                           .most_cycles = {},
                           .baseline_m = 16.05e-3,
                           .least_m = 14.45e-3,
                           .basis = "owner's rule"});
  return input;
}

}  // namespace fairlead::sheets

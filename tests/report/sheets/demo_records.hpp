// A register that says something of every part of a layout, and what two inspections found.
#pragma once

#include <optional>

#include "geometry/records/records.hpp"

namespace fairlead::sheets {

inline constexpr Date today{2026, 10, 30};

inline Records records_of(const Layout& layout, std::optional<Date> date = today) {
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
  input.log = {{.id = "F2", .found = {2026, 10, 12}, .part = "brake_trolley", .what = "one wheel turns rough"},
               {.id = "F1",
                .found = {2026, 4, 20},
                .part = "main_line",
                .what = "scored by grit",
                .closed = Date{2026, 4, 21},
                .by = "T.",
                .how = "dressed"}};
  return judge_records(layout, date, std::move(input)).value();
}

}  // namespace fairlead::sheets

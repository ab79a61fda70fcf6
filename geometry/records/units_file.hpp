// The data of brake units by serial, as a comma-separated file: what a layout is judged with while another unit stands
// in its place.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "geometry/layout/read.hpp"
#include "geometry/survey/csv_lines.hpp"

namespace fairlead {

/// One number of one unit. Columns: serial, key, value, all required; the key is one of [brake_unit] and the value
/// written as in a layout.
struct UnitDatum {
  std::string serial, key, value;
  unsigned line{};  ///< of the file, from 1
};

/// The keys of [brake_unit] that go with the unit itself. Where it stands, how it points, and the line that is out of
/// it at rest are the rig's.
std::vector<std::string> unit_keys();

/// Refused with all that is wrong: a key that is none of the unit's, one that is there already for that serial, a
/// serial that no layout can hold.
tl::expected<std::vector<UnitDatum>, PointsErrors> read_units(std::string_view text);

/// What makes a layout one with that unit in place: each of its keys as the file has it, and none that the file does
/// not have, so that nothing of the other unit is left. Empty where the file has no such serial.
std::vector<Override> swapped_in(const std::vector<UnitDatum>&, const std::string& serial);

}  // namespace fairlead

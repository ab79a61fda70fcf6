// What a crew measured on the built rig besides points: a comma-separated file, a measurement a line. Its first line
// names the columns item, quantity, value, unit and uncertainty in any order; text, quotes, comments and blanks are
// those of a points file.
#pragma once

#include <string_view>
#include <vector>

#include "geometry/survey/quantities_file.hpp"

namespace fairlead {

/// By the words of the layout's keys, where there is one.
enum class Measurand {
  tension,         ///< of the bare main line, where the layout says it is measured
  sag,             ///< of the bare main line
  temperature,     ///< of the main line as tension or sag was measured
  rest_extension,  ///< of the brake unit
  rest,            ///< chainage: of the brake trolley's rest mark, or of a block as the trolley stands there
  length,          ///< finished, of a line, from bearing to bearing, unloaded
  bearing,         ///< of an axle or axis, clockwise from the north of the points file, or else the site's
  tilt,            ///< of the same above level, out of the end whose bearing is given
  platform_from,
  platform_to,
  platform_level,
  engages,   ///< chainage, of the backup brake
  distance,  ///< straight from mark to mark, of an item like "P1 to A3": sag, pull and warmth of the tape taken off
  rise,      ///< of the second mark above the first, by a level
  diameter   ///< of a line, or of a sheave in its groove, where it is worn most: what the register of parts judges
};
inline constexpr std::size_t measurands = static_cast<std::size_t>(Measurand::diameter) + 1;

using MeasurandKind = QuantityKind;
const MeasurandKind& kind_of(Measurand);

struct Measurement : QuantityRow {
  Measurand measurand{};
  bool operator==(const Measurement&) const = default;
};

inline constexpr std::size_t largest_measurements_file = largest_quantities_file;

/// The measurements of a file in its order, each with a number that may be and an uncertainty above 0, no item with the
/// same quantity twice. No measurement is none; what an item is only the layout tells.
tl::expected<std::vector<Measurement>, PointsErrors> read_measurements(std::string_view text);

}  // namespace fairlead

// What a crew measured on the built rig besides points: a comma-separated file, a measurement a line. Its first line
// names the columns item, quantity, value, unit and uncertainty in any order; text, quotes, comments and blanks are
// those of a points file.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/quantity/dimension.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

/// By the words of the layout's keys, where there is one.
enum class Measurand {
  tension,         ///< of the bare main line, where the layout says it is measured
  sag,             ///< of the bare main line
  temperature,     ///< of the main line as tension or sag was measured
  rest_extension,  ///< of the brake unit
  rest,            ///< chainage: of the brake trolley's rest mark, or of a block as the trolley stands there
  length,          ///< finished, of a line, from bearing to bearing, unloaded
  bearing,         ///< of an axle or axis, clockwise from the north of the points file
  tilt,            ///< of the same above level, out of the end whose bearing is given
  platform_from,
  platform_to,
  platform_level,
  engages  ///< chainage, of the backup brake
};
inline constexpr std::size_t measurands = static_cast<std::size_t>(Measurand::engages) + 1;

struct MeasurandKind {
  std::string_view word;
  Dimension dimension;
  double least, most;  ///< what it may be, SI
};
const MeasurandKind& kind_of(Measurand);

/// Where something stands in its line.
struct Columns {
  unsigned column{}, length = 1;  ///< from 1, characters
  bool operator==(const Columns&) const = default;
};

struct Measurement {
  std::string item;
  Measurand measurand{};
  double value{};        ///< SI
  double uncertainty{};  ///< standard, > 0, SI
  unsigned line{};       ///< of the file, from 1
  Columns item_at{}, measurand_at{}, value_at{};
  std::string source_line;
  bool operator==(const Measurement&) const = default;
};

/// The same at the place of a measurement: for what only the layout tells.
PointsError error_at(const Measurement&, Columns, std::string message, std::string instead);

inline constexpr std::size_t largest_measurements_file = std::size_t{1} * 1024 * 1024;

/// The measurements of a file in its order, each with a number that may be and an uncertainty above 0, no item with the
/// same quantity twice. No measurement is none; what an item is only the layout tells.
tl::expected<std::vector<Measurement>, PointsErrors> read_measurements(std::string_view text);

}  // namespace fairlead

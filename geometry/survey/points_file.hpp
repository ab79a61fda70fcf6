// Points files as surveyors exchange them: comma-separated, a point a line. Neither the order of northing and easting
// nor the unit can be told from the numbers, so both are always stated, never guessed.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead {

/// pnezd: point, northing, easting, elevation, description; penzd: easting before northing; both without a header, and
/// the description may be left out of all lines. named: the first line names the columns, in any order.
enum class PointsOrder { pnezd, penzd, named };

/// ft is the international foot. The US survey foot is 2 millionths longer: 2 m in 1000 km of easting.
enum class PointsUnit { m, mm, ft, us_survey_ft };

constexpr std::string_view keyword(PointsOrder order) {
  return order == PointsOrder::pnezd ? "pnezd" : order == PointsOrder::penzd ? "penzd" : "named";
}
constexpr std::string_view keyword(PointsUnit unit) {
  if (unit == PointsUnit::m) return "m";
  if (unit == PointsUnit::mm) return "mm";
  return unit == PointsUnit::ft ? "ft" : "US survey ft";
}

struct PointsFormat {
  PointsOrder order{};
  PointsUnit unit{};
  double target_offset_m = 0;  ///< height of the target above the mark: elevation of the mark = that in the file - this
};

struct SurveyPoint {
  std::string id;
  Point3 at;  ///< of the mark: x easting, y northing, z elevation, m
  std::string description;
  unsigned line{};  ///< of the file, from 1
  bool operator==(const SurveyPoint&) const = default;
};

struct PointsError {
  unsigned line{}, column{};  ///< from 1, columns are characters; line 0: of the file as a whole
  unsigned length = 1;        ///< columns that are wrong
  std::string message, instead;
  std::string source_line;
};

/// All errors of a file in the order of their places, after the first 200 only their number.
struct PointsErrors {
  std::vector<PointsError> first;
  std::size_t more = 0;
};

inline constexpr std::size_t largest_points_file = std::size_t{64} * 1024 * 1024;
/// Beyond this no coordinate is believed: the equator lies 10 000 km from the pole.
inline constexpr double farthest_coordinate_m = 1e7;
/// No pole with a target is longer; an offset in millimetres that was taken for metres is.
inline constexpr double greatest_target_offset_m = 10;

/// "the file has 70000000 bytes, and a points file at most 67108864"
std::string points_file_too_large(std::size_t bytes);

/// The points of a file in its order, each with an id of its own and finite coordinates. Texts with a comma stand in
/// quotes and a quote in them is doubled (RFC 4180, but no text goes on in the next line). Lines that begin with #,
/// blank lines, blanks around a value, a byte order mark and either line end are passed over. Named columns: point (id,
/// name), northing (north, n), easting (east, e), elevation (up, z), description, target_offset (as in PointsFormat, of
/// that point); capitals or not. All lines have as many columns as the first, so that a decimal comma is found.
tl::expected<std::vector<SurveyPoint>, PointsErrors> read_points(std::string_view text, const PointsFormat&);

/// The text of a points file. Read with the same format it gives the same points, each coordinate within 0.05 mm: m and
/// ft have four decimals, mm has one. No answer for what could not be read back: an id that is empty or used twice, a
/// text with a line break or no UTF-8, a coordinate that is not known or too far out.
Solved<std::string> points_text(std::span<const SurveyPoint>, const PointsFormat&);

}  // namespace fairlead

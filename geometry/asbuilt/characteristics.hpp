// What of a built rig only a measurement tells: where its marks stand, how axles and axes lie, tensions and lengths.
// What is made in a workshop (sheaves, blocks, trolleys, the unit's own drag), riders, weather and the site itself are
// what the layout says they are.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "geometry/studies/set_out_points.hpp"
#include "geometry/survey/measurements_file.hpp"

namespace fairlead {

struct Characteristic {
  Item item;
  std::string id;    ///< in the files: "A3", "R1", "main_line"
  std::string name;  ///< "place of A3", "axle of sheave R1"
  int point = -1;    ///< index into set_out_points; -1: it is no place
  /// Of the measurements file, all of them needed, in the order in which `set` takes them. Of a place none, but for the
  /// rest mark, which may be taped instead of shot.
  std::vector<Measurand> measurands;
  int ways = 1;                                               ///< in which it can be off
  std::function<void(Layout&, int way, double share)> shift;  ///< by a share of what a crew might miss: see below
  /// Of no place: gives it these numbers, SI, with directions in the site frame, as read at a place.
  /// Of a main line by shots, the tension and then what was measured.
  std::function<void(Layout&, const std::vector<double>&, Place)> set;
  std::optional<Vec3> drawn{};  ///< of a direction: that of the layout, any length
  bool either_end = false;      ///< and its opposite is the same
};

/// What a crew that measured nothing might miss, own figures: what moves with so much rests on the characteristic.
inline constexpr double missed_m = 0.05, missed_rad = 0.035, missed_share = 0.05, missed_K = 10;

/// The marks in the order of set_out_points, then what is measured by itself. `sags`: ids of cables of which the sag
/// was measured in place of the tension. `main_line_shot`: its tension comes from points shot on it, and its
/// temperature alone from the file.
std::vector<Characteristic> characteristics(const Rig& design, const std::vector<std::string>& sags,
                                            bool main_line_shot = false);

/// The words a measurements file has for what is one of its kind: "main_line", "brake_unit", "brake_trolley",
/// "landing", "backup_brake".
std::string file_word(const Layout&, Item);

/// Unit vector of a bearing, clockwise from y, and a tilt above level.
Vec3 direction_of(double bearing_rad, double tilt_rad);

}  // namespace fairlead

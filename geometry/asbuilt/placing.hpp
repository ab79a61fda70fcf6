// Where the surveyed points stand on the site: matched to the layout's marks and pegs by their ids, and laid on it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/asbuilt/taping.hpp"
#include "geometry/studies/set_out_points.hpp"
#include "geometry/survey/fit.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

struct SurveyTerms {
  std::vector<std::string> control;  ///< ids; none: the points stand in the site frame as they are
  FitKind kind = FitKind::levelled;
  double uncertainty_m{};    ///< standard, of every coordinate, > 0; of tapes alone 0, for none was measured
  bool tapes_alone = false;  ///< no point was shot: the control marks are held where the layout has them
};

/// A point of the file that the layout knows, or one that readings placed or that is held.
struct PlacedPoint {
  std::string id;
  int mark = -1;    ///< index into set_out_points; -1: a peg
  Point3 design;    ///< where the layout has it
  Point3 measured;  ///< in the file's frame: as shot, or as adjusted with the readings
  Point3 at;        ///< site frame, by the fit
  unsigned line{};  ///< of the file; of one that was not shot, of its first reading in the measurements file
  bool shot = true;
  bool held = false;   ///< not measured: it is said to stand where the layout has it
  bool taped = false;  ///< moved, or fixed, by readings from mark to mark
  bool control = false;
  bool placed = true;  ///< false where the layout does not say where it stands: a rest mark on an unsolved line
};

/// A point shot on the bare main line: "main_line-1", "main_line-2", ...
struct ShotOnLine {
  std::string id;
  Point3 measured, at;  ///< as the file has it; site frame, by the fit
  unsigned line{};      ///< of the file
};

struct Placing {
  SurveyTerms terms;
  /// In the order of the file, or, of tapes alone, those held in the order of the terms; then those that only readings
  /// placed.
  std::vector<PlacedPoint> points;
  std::vector<ShotOnLine> line_shots;  ///< in the order of the file
  std::vector<std::string> strangers;  ///< ids of the file that are neither mark nor peg
  std::vector<std::string> missing;    ///< marks and pegs that are not placed; marks first
  std::vector<int> control;            ///< indices into points, in the order of the terms
  std::optional<Fit> fit;              ///< of the control points; none in the site frame and of tapes alone
  std::optional<FitTest> test;
  std::optional<Taping> taping;  ///< where there are readings from mark to mark
  bool hand_told = true;  ///< false: with northing and easting swapped the points would lie on the layout as well
  std::string doubt;      ///< why no place is believed; empty where all are
};

/// Ids of marks and pegs, marks first.
std::vector<std::string> known_ids(const Layout&, const std::vector<SetOutPoint>& marks);

/// The ids of a points file that place_points has a use for: marks, pegs, points on the main line, control points,
/// known or not.
std::function<bool(std::string_view id)> surveyed_ids(const Layout&, const SurveyTerms&);

/// Tapes alone need readings and no points. Refused with all that is wrong: control points that are not there or fix
/// nothing, an axis swapped or mirrored, a unit that is another than stated, points that lie in another frame than the
/// site's.
tl::expected<Placing, PointsErrors> place_points(const Layout&, const std::vector<SetOutPoint>& marks,
                                                 const std::vector<SurveyPoint>&, const SurveyTerms&,
                                                 const std::vector<SiteReading>& = {});

/// How many places are measured, and drawn: the points, and behind them the shots on the line.
std::size_t measured_places(const Placing&);

/// Errors of the measured places made of standard normal numbers, one vector a place.
std::vector<Vec3> errors_m(const Placing&, const std::vector<Vec3>& normals);

/// Where the measured places are with each coordinate off by so much: the fit is made anew.
std::vector<Point3> places(const Placing&, const std::vector<Vec3>& errors_m);

/// The points' directions in the site frame.
Vec3 turned(const Placing&, Vec3 measured);

}  // namespace fairlead

// Where the surveyed points stand on the site: matched to the layout's marks and pegs by their ids, and laid on it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/asbuilt/taping.hpp"
#include "geometry/studies/set_out_points.hpp"
#include "geometry/survey/fit.hpp"
#include "geometry/survey/points_file.hpp"

namespace fairlead {

struct SurveyTerms {
  std::vector<std::string> control;  ///< ids; none: the points stand in the site frame as they are
  FitKind kind = FitKind::levelled;
  double uncertainty_m{};  ///< standard, of every coordinate, > 0
};

/// A point of the file that the layout knows.
struct PlacedPoint {
  std::string id;
  int mark = -1;    ///< index into set_out_points; -1: a peg
  Point3 design;    ///< where the layout has it
  Point3 measured;  ///< in the file's frame: as shot, or as adjusted with the readings
  Point3 at;        ///< site frame, by the fit
  unsigned line{};  ///< of the file; of one that was not shot, of its first reading in the measurements file
  bool shot = true;
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
  std::vector<PlacedPoint> points;     ///< in the order of the file, then those that only readings placed
  std::vector<ShotOnLine> line_shots;  ///< in the order of the file
  std::vector<std::string> strangers;  ///< ids of the file that are neither mark nor peg
  std::vector<std::string> missing;    ///< marks and pegs that are not in the file; marks first
  std::vector<int> control;            ///< indices into points, in the order of the terms
  std::optional<Fit> fit;              ///< of the control points; none in the site frame
  std::optional<FitTest> test;
  std::optional<Taping> taping;  ///< where there are readings from mark to mark
  bool hand_told = true;  ///< false: with northing and easting swapped the points would lie on the layout as well
  std::string doubt;      ///< why no place is believed; empty where all are
};

/// Ids of marks and pegs, marks first.
std::vector<std::string> known_ids(const Layout&, const std::vector<SetOutPoint>& marks);

/// Refused with all that is wrong: control points that are not there or fix nothing, an axis swapped or mirrored, a
/// unit that is another than stated, points that lie in another frame than the site's.
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

// Where the surveyed points stand on the site: matched to the layout's marks and pegs by their ids, and laid on it.
#pragma once

#include <optional>
#include <string>
#include <vector>

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
  Point3 measured;  ///< as the file has it
  Point3 at;        ///< site frame, by the fit
  unsigned line{};  ///< of the file
  bool control = false;
  bool placed = true;  ///< false where the layout does not say where it stands: a rest mark on an unsolved line
};

struct Placing {
  SurveyTerms terms;
  std::vector<PlacedPoint> points;     ///< in the order of the file
  std::vector<std::string> strangers;  ///< ids of the file that are neither mark nor peg
  std::vector<std::string> missing;    ///< marks and pegs that are not in the file; marks first
  std::vector<int> control;            ///< indices into points, in the order of the terms
  std::optional<Fit> fit;              ///< of the control points; none in the site frame
  std::optional<FitTest> test;
  std::string doubt;  ///< why no place is believed; empty where all are
};

/// Refused with all that is wrong: control points that are not there or fix nothing, an axis swapped or mirrored, a
/// unit that is another than stated, points that lie in another frame than the site's.
tl::expected<Placing, PointsErrors> place_points(const Layout&, const std::vector<SetOutPoint>& marks,
                                                 const std::vector<SurveyPoint>&, const SurveyTerms&);

/// Where the points stand with each measured coordinate off by so much: the fit is made anew.
std::vector<Point3> places(const Placing&, const std::vector<Vec3>& errors_m);

/// The points' directions in the site frame.
Vec3 turned(const Placing&, Vec3 measured);

}  // namespace fairlead

// Which tape distances fix a mark, so that a crew can set it out, or check it, with tapes alone.
//
// Three tapes from three marks fix a place up to its mirror image in the plane of the three; a fourth tells the two
// apart. An error of the tapes comes to stand in the place magnified: with the unit directions of the three tapes as
// rows of A, independent errors of size e in each make one of e sqrt(trace((A^T A)^-1)), the dilution. Three tapes
// square to one another have sqrt 3; three in one plane have no end.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/solids/shapes.hpp"

namespace fairlead {

struct TieInputs {
  std::vector<Point3> known;   ///< marks that stand
  std::vector<Point3> wanted;  ///< marks to set out
  /// Known marks come first; a mark that can not be tied to them alone may be tied to wanted ones that were. False: all
  /// stand by other means and the ties only check them, so that each may be tied to any other.
  bool in_turn = true;
  std::vector<solids::Shape> obstacles;
  double longest_tape_m = 30;
  double tape_error_m = 0.005;  ///< of one pull: common practice for a steel tape pulled by hand, no source
  double clear_by_m = 0.02;  ///< from a tape to anything solid; half a tape's width and a hand's unsteadiness, own rule
  /// So much of either end of a tape is not held against the obstacles: the mark's own fitting, own rule.
  double fitting_m = 0.1;
  /// Of the tapes' error in the mark. 5 mm become 25 mm, what crews promise to set out within (own rule).
  double greatest_dilution = 5;
};

/// Indices into the known marks and, behind them, the wanted ones. `from` stands, `to` is set out.
struct Tie {
  int from{}, to{};
  double distance_m{};
  bool operator==(const Tie&) const = default;
};

/// A further tape, by which the mark is known from its mirror image.
struct TieCheck {
  Tie tie;
  double at_mirror_m{};  ///< what it would read there
  bool tells_mirror{};   ///< the two differ by more than the tapes' errors
};

/// How a mark is fixed.
struct TiedMark {
  std::array<Tie, 3> ties;  ///< of the least dilution; in the order of `from`
  double dilution{};
  Vec3 normal;          ///< of the plane of the three, unit: to the side on which the mark stands
  double height_m{};    ///< of the mark over that plane, > 0
  Point3 mirror;        ///< where the same three distances meet on the other side, 2 height_m away
  bool mirror_apart{};  ///< farther from the mark than the error of both; if not, the three tapes alone say where it is
  std::optional<TieCheck> check;  ///< of the marks left, the one that tells the mirror best; none is left in reach
};

struct Ties {
  /// For each wanted mark how it is fixed, or why it is not: the residual is then the least dilution there is, 0 where
  /// there are no three tapes.
  std::vector<Solved<TiedMark>> wanted;
  std::vector<int> order;  ///< those that are fixed, indices into `wanted`, in an order in which they can be set out
};

/// Chooses the ties. A tape can be pulled where its straight run is no longer than the longest tape, keeps clear of
/// every obstacle, and is long enough that directions are known (greatest_dilution^2 tape_error / 2: a mark off by the
/// dilution times the tape's error is then off the tape's circle by no more than that error). Of the marks in reach the
/// 40 nearest are looked at. Among equals the lowest indices are taken.
Ties choose_ties(const TieInputs&);

}  // namespace fairlead

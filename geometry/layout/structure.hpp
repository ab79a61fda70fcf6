// The section [[structure]]: what stands on the site and must be kept clear of. Its table: structure_fields.hpp.
#pragma once

#include <algorithm>

#include "geometry/layout/given.hpp"

namespace fairlead {

enum class StructureKind { box, post, plane };

/// What may have to keep its distance from a structure.
enum class Mover { lines, block, rider };

/// A simple solid. The members of its kind are given, those of the others are absent.
struct Structure {
  Words id;
  Given<StructureKind> kind;
  std::optional<Given<Point3>> centre;    ///< of a box
  std::optional<Given<Size>> size_m;      ///< of a box: along its bearing, across, up
  Real bearing_rad;                       ///< of a box: from the x axis to its length, anticlockwise seen from above
  std::optional<Given<Point3>> from, to;  ///< of a post: the ends of its axis
  std::optional<Real> diameter_m;         ///< of a post
  std::optional<Given<Point3>> through;   ///< of a plane: a point on it
  std::optional<Given<Vec3>> normal;      ///< of a plane: out of the solid, any length > 0
  Given<std::vector<Mover>> clear_of{{Mover::lines, Mover::block, Mover::rider}, {}};  ///< who must; line 0: everyone
  Place place{};
};

/// Whether `mover` has to keep clear of it.
inline bool keeps_clear(const Structure& structure, Mover mover) {
  const std::vector<Mover>& all = structure.clear_of.value;
  return std::find(all.begin(), all.end(), mover) != all.end();
}

}  // namespace fairlead

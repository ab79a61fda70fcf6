// An anchor built up of members: a node that slings, guys and a pole hold against the pull on it.
#pragma once

#include <optional>
#include <vector>

#include "geometry/quantity/solved.hpp"
#include "geometry/quantity/vectors.hpp"

namespace fairlead::anchorage {

/// A straight, weightless part from the node to a fixed point, free to turn at both ends.
struct Member {
  Point3 to;
  bool pushes = false;      ///< takes compression too: a pole
  double ea_N = 0;          ///< stiffness; 0: not known
  double pretension_N = 0;  ///< with nothing pulling at the node
  bool operator==(const Member&) const = default;
};

struct Node {
  Point3 at;  ///< as drawn
  std::vector<Member> members;
};

/// What holds a node under one force. A member that goes slack has force 0 and is named.
struct Held {
  std::vector<double> force_N;  ///< per member; tension positive
  std::vector<int> slack;       ///< members that nothing pulls, in their order; none where nothing pulls at the node
  std::optional<Vec3> moved_m;  ///< of the node from where it is drawn; nothing where stiffness is not known or the
                                ///< taut members leave it loose
};

/// The greatest number of members one node may have: every set of taut ones may have to be tried.
inline constexpr std::size_t most_members = 8;

/// Forces in the members under `force_N` of the rig on the node.
///
/// One member: a sling that swings until the force runs along it, as far as that may be. Two: a triangle that turns
/// about the chord between its far ends until the force lies in its plane and pulls away from the chord; its sides keep
/// their lengths. A leg that would then be pushed goes slack and the other swings alone. Three and more, not in one
/// plane: elastic, of small movements; those that only pull have N = max(0, N0 + EA e / L), a pole the same without the
/// max. The forces are those of least complementary energy among all that are in equilibrium, of which there is one;
/// where the taut ones do not fix the node, its movement is not known. Where no stiffness is known all are taken of one
/// EA.
/// The node moves from where the pretensions alone hold it.
///
/// Unsolved where the members cannot hold that force, whatever their stiffness; where three and more lie in one plane;
/// or where a member has no length. Weight of the members is left out. Forces close to 1e-12 of the greatest.
Solved<Held> hold(const Node&, Vec3 force_N);

/// Gives the one pole of a node the compression that the pretensions of its guys have along it; nothing where there is
/// no pole, or several.
void brace(Node&);

}  // namespace fairlead::anchorage

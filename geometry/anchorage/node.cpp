#include "geometry/anchorage/node.hpp"

#include <algorithm>

#include "geometry/anchorage/elastic.hpp"
#include "geometry/anchorage/swing.hpp"

namespace fairlead::anchorage {

Solved<Held> hold(const Node& node, Vec3 force_N) {
  const std::size_t count = node.members.size();
  if (!std::isfinite(norm(force_N))) return unsolved("the force on it is not known");
  if (count == 0) return unsolved("nothing holds it");
  if (count > most_members) return unsolved("it has more members than can be tried");
  for (const Member& member : node.members)
    if (!(norm(member.to - node.at) > 0)) return unsolved("one of its members has no length");
  if (count > 2) return hold_by_many(node, force_N);
  if (force_N == Vec3{}) return Held{std::vector<double>(count), {}, Vec3{}};
  return count == 1 ? hold_by_one(node, force_N) : hold_by_two(node, force_N);
}

}  // namespace fairlead::anchorage

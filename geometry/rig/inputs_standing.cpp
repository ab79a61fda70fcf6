#include <fmt/format.h>

#include "geometry/rig/inputs.hpp"

namespace fairlead {

void add_standing(const Layout& layout, loads::Inputs& in, std::vector<std::string>& assumptions) {
  for (const Anchor& anchor : layout.anchors) {
    loads::Footing& footing = in.footings.emplace_back();
    if (anchor.base) footing.base = anchor.base->value;
    if (anchor.cone_axis) footing.cone_axis = anchor.cone_axis->value;
  }
  std::vector<anchorage::Node> nodes;
  for (const Anchor& anchor : layout.anchors) nodes.push_back({anchor.position, {}});
  std::vector<std::size_t> place;  // of each member in its node
  for (const Member& member : layout.members) {
    anchorage::Member part{.to = member.to, .pushes = member.kind == MemberKind::pole};
    if (member.ea_N) part.ea_N = *member.ea_N;
    if (member.pretension_N) part.pretension_N = *member.pretension_N;
    std::vector<anchorage::Member>& of_node = nodes[static_cast<std::size_t>(member.anchor)].members;
    place.push_back(of_node.size());
    of_node.push_back(part);
  }
  for (std::size_t a = 0; a < nodes.size(); ++a) {
    anchorage::brace(nodes[a]);
    if (nodes[a].members.size() > 2 && nodes[a].members[0].ea_N == 0)
      assumptions.push_back(fmt::format(
          "anchor.{}: its members are taken of one stiffness EA, and its point as staying where it is drawn; "
          "they give no ea",
          layout.anchors[a].id.value));
  }
  for (std::size_t m = 0; m < layout.members.size(); ++m) {
    const Member& member = layout.members[m];
    in.members.push_back({member.id.value, static_cast<int>(member.anchor),
                          nodes[static_cast<std::size_t>(member.anchor)].members[place[m]],
                          member.may_be_lost && member.may_be_lost->value});
  }
}

}  // namespace fairlead

#include <fmt/format.h>

#include "geometry/rig/inputs.hpp"

namespace fairlead {

void add_standing(const Layout& layout, loads::Inputs& in, std::vector<std::string>& assumptions) {
  for (const Anchor& anchor : layout.anchors) {
    loads::Footing& footing = in.footings.emplace_back();
    if (anchor.base) footing.base = anchor.base->value;
    if (anchor.cone_axis) footing.cone_axis = anchor.cone_axis->value;
  }
  std::vector<int> without_stiffness(layout.anchors.size());
  for (const Member& member : layout.members) {
    anchorage::Member part{.to = member.to, .pushes = member.kind == MemberKind::pole};
    if (member.ea_N) part.ea_N = *member.ea_N;
    if (member.pretension_N) part.pretension_N = *member.pretension_N;
    if (!member.ea_N) ++without_stiffness[static_cast<std::size_t>(member.anchor)];
    in.members.push_back({member.id.value, static_cast<int>(member.anchor), part,
                          member.may_be_lost && member.may_be_lost->value});
  }
  for (std::size_t a = 0; a < layout.anchors.size(); ++a)
    if (without_stiffness[a] > 2)
      assumptions.push_back(
          fmt::format("anchor.{}: its members are taken of one stiffness EA, and its point as staying where it is drawn; "
                      "they give no ea",
                      layout.anchors[a].id.value));
}

}  // namespace fairlead

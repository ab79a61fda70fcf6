// What must agree between anchors and the members that hold them.
#include <fmt/format.h>

#include <algorithm>

#include "geometry/layout/sections.hpp"

namespace fairlead {
namespace {

constexpr std::size_t most_members = 8;  ///< of one anchor: sets of them are tried one by one

class Members {
 public:
  Members(const Layout& layout, Errors& errors) : layout_(layout), errors_(errors), of_(layout.anchors.size()) {
    for (const Member& member : layout.members)
      if (const auto anchor = static_cast<std::size_t>(member.anchor); anchor < of_.size())
        of_[anchor].push_back(&member);
  }

  /// What no members hold carries by itself.
  void strengths() {
    for (std::size_t a = 0; a < of_.size(); ++a) {
      const Anchor& anchor = layout_.anchors[a];
      if (of_[a].empty() && !anchor.wll_N && !anchor.mbs_N && anchor.place.line > 0)
        errors_.add(anchor.place, fmt::format("anchor \"{}\": one of \"wll\" and \"mbs\" is missing", anchor.id.value),
                    "give exactly one");
    }
  }

  void members() {
    for (std::size_t a = 0; a < of_.size(); ++a) {
      if (of_[a].size() > most_members)
        errors_.add(
            of_[a][most_members]->anchor_place,
            fmt::format("anchor \"{}\": more than {} members hold it", layout_.anchors[a].id.value, most_members),
            "take those together that lead to one point");
      for (const Member* member : of_[a]) one(*member, layout_.anchors[a], of_[a].size());
      if (of_[a].size() > 2) stiffnesses(of_[a]);
    }
  }

 private:
  void one(const Member& member, const Anchor& anchor, std::size_t of_all) {
    const std::string who = fmt::format("member \"{}\"", member.id.value);
    if (!(norm(member.to.value - anchor.position.value) > 0))
      errors_.add(member.to.place,
                  fmt::format("{}: it ends at the point of \"{}\" that it holds", who, anchor.id.value),
                  "give the point where it is fixed");
    if (member.pretension_N && of_all < 3)
      errors_.add(member.pretension_N->place,
                  fmt::format("{}: {} hold \"{}\", and nothing tightens it", who,
                              of_all == 1 ? "no other members" : "only two members", anchor.id.value),
                  "leave out \"pretension\", or add the members that it pulls against");
  }

  /// The share each carries follows from the stiffness of all.
  void stiffnesses(const std::vector<const Member*>& members) {
    const auto with = std::find_if(members.begin(), members.end(), [](const Member* m) { return m->ea_N.has_value(); });
    if (with == members.end()) return;
    for (const Member* member : members)
      if (!member->ea_N)
        errors_.add(member->place,
                    fmt::format("member \"{}\": \"ea\" is missing, which \"{}\" beside it has", member->id.value,
                                (*with)->id.value),
                    "give \"ea\" to all members of an anchor, or to none");
  }

  const Layout& layout_;
  Errors& errors_;
  std::vector<std::vector<const Member*>> of_;  // per anchor
};

}  // namespace

void check_members(const Layout& layout, bool anchors, Errors& errors) {
  Members all(layout, errors);
  all.strengths();
  if (anchors) all.members();
}

}  // namespace fairlead

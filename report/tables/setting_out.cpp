#include <fmt/format.h>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

class SettingOut {
 public:
  explicit SettingOut(const Rig& rig) : rig_(rig) {
    const auto& axes = rig.layout.site.axes;
    table_.title = "Setting out";
    table_.headings = {"item", "point", axes[0], axes[1], axes[2], "chainage", "across", "above start"};
    table_.notes = {"Across: from the main line's vertical plane, to the left looking toward the landing.",
                    "Above start: above the main line's upstream support.",
                    "Marks are set out along the main line in plan; their height is the line's own."};
    if (rig.layout.site.datum) table_.notes.insert(table_.notes.begin(), "Datum: " + rig.layout.site.datum->value);
  }

  void point(std::string item, std::string what, Point3 p) {
    const Frame& frame = rig_.frame;
    row(std::move(item), std::move(what),
        {length(p.x), length(p.y), length(p.z), length(frame.chainage_m(p)), length(frame.across_m(p)),
         length(dot(p - frame.origin, frame.up))});
  }
  void mark(std::string item, std::string what, double chainage_m) {
    row(std::move(item), std::move(what), {{}, {}, {}, length(chainage_m), {}, {}});
  }
  void nowhere(std::string item, std::string what) { row(std::move(item), std::move(what), {{}, {}, {}, {}, {}, {}}); }

  Table take() { return std::move(table_); }

 private:
  static Cell length(double m) { return cell(m, Dimension::length); }
  void row(std::string item, std::string what, std::vector<Cell> cells) {
    cells.insert(cells.begin(), {Cell{std::move(item)}, Cell{std::move(what)}});
    table_.rows.push_back(std::move(cells));
  }

  const Rig& rig_;
  Table table_;
};

void set_out(SettingOut& out, const std::string& name, const Structure& structure) {
  switch (structure.kind.value) {
    case StructureKind::box:
      return out.point(name, "centre of a box", *structure.centre);
    case StructureKind::post:
      out.point(name, "one end of a post", *structure.from);
      return out.point(name, "its other end", *structure.to);
    case StructureKind::plane:
      return out.point(name, "a point on a plane", *structure.through);
  }
}

/// What of a sheave is set out: its centre, or the eye that it swivels about or hangs from.
void set_out(SettingOut& out, const Layout& layout, const Sheave& sheave, const Style& style) {
  const std::string name = "sheave " + sheave.id.value;
  if (sheave.mount != Mount::fixed)
    out.point(name, "eye: " + mount_of(layout, sheave, style), eye_of(layout, sheave));
  else if (sheave.position)
    out.point(name, "centre", *sheave.position);
  else
    out.nowhere(name, "travels with what carries it");
}

/// Where what moves stands with the trolley at its mark: a crew checks it and does not set it out.
void check_values(SettingOut& out, const Rig& rig) {
  const auto rest = rest_pose(rig);
  for (std::size_t i = 0; rest && i < rig.bodies.size(); ++i) {
    const std::string name = words::name_of(rig.layout, rig.bodies[i]);
    if (rig.bodies[i].kind == Item::Kind::block)
      out.point(name, "its point, trolley at its mark",
                rest->sweep->blocks[rest->index * rig.bodies.size() + i].placement.at);
    else if (const auto centre = centre_at_rest(rig, i))
      out.point(name, "check: its centre at rest tension, trolley at its mark", *centre);
  }
}

}  // namespace

Table setting_out(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  SettingOut out(rig);
  for (const Anchor& anchor : layout.anchors)
    out.point("anchor " + anchor.id.value, "where the load acts", anchor.position);
  for (const Member& member : layout.members)
    out.point(words::name_of(layout, {Item::Kind::member, static_cast<int>(&member - layout.members.data())}),
              "where it is fixed", member.to);
  for (const Sheave& sheave : layout.sheaves) set_out(out, layout, sheave, style);
  out.point("brake unit", "outlet", layout.brake_unit.outlet);
  check_values(out, rig);
  out.mark("brake trolley", "rest mark", layout.brake_trolley.rest_m);
  out.mark("brake trolley", "end of planned travel", layout.brake_trolley.rest_m + layout.brake_trolley.travel_m);
  for (const Structure& structure : layout.structures) set_out(out, "structure " + structure.id.value, structure);
  if (layout.backup_brake) out.mark("backup brake", "engages", layout.backup_brake->engages_m);
  if (layout.landing) {
    out.mark("landing", "platform, upstream edge", layout.landing->platform_from_m);
    out.mark("landing", "platform, downstream edge", layout.landing->platform_to_m);
  }
  return out.take();
}

}  // namespace fairlead::tables

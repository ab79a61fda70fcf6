#include <fmt/format.h>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

class Places {
 public:
  explicit Places(const Rig& rig) : rig_(rig) {
    const auto& axes = rig.layout.site.axes;
    table_.title = "Places to check by";
    table_.headings = {"item", "point", axes[0], axes[1], axes[2], "chainage"};
    table_.notes = {"Marks without coordinates lie along the main line in plan; their height is the line's own."};
  }

  void point(std::string item, std::string what, Point3 p) {
    row(std::move(item), std::move(what), {length(p.x), length(p.y), length(p.z), length(rig_.frame.chainage_m(p))});
  }
  void mark(std::string item, std::string what, double chainage_m) {
    row(std::move(item), std::move(what), {{}, {}, {}, length(chainage_m)});
  }
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

void place(Places& out, const std::string& name, const Structure& structure) {
  switch (structure.kind.value) {
    case StructureKind::box:
      return out.point(name, "centre of a box", *structure.centre);
    case StructureKind::post:
      out.point(name, "one end of a post", *structure.from);
      return out.point(name, "its other end", *structure.to);
    case StructureKind::plane:
      return out.point(name, "a point on a plane", *structure.through);
    case StructureKind::scan:
      return out.point(name, "the scan's zero", structure.origin.value_or(Given<Point3>{}));
  }
}

/// Where what moves stands with the trolley at its mark: a crew checks it and does not set it out.
void at_rest(Places& out, const Rig& rig) {
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

Table check_places(const Dossier& dossier) {
  const Rig& rig = dossier.judged.rig;
  const Layout& layout = rig.layout;
  Places out(rig);
  at_rest(out, rig);
  out.mark("brake trolley", "end of planned travel", layout.brake_trolley.rest_m + layout.brake_trolley.travel_m);
  if (layout.backup_brake) out.mark("backup brake", "engages", layout.backup_brake->engages_m);
  if (layout.landing) {
    out.mark("landing", "platform, upstream edge", layout.landing->platform_from_m);
    out.mark("landing", "platform, downstream edge", layout.landing->platform_to_m);
  }
  for (const Structure& structure : layout.structures) place(out, "structure " + structure.id.value, structure);
  return out.take();
}

}  // namespace fairlead::tables

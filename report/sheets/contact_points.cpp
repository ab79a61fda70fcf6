#include "report/sheets/contact_points.hpp"

#include "report/tables/tables.hpp"
#include "report/words/names.hpp"

namespace fairlead::sheets {

namespace {

std::string_view end_words(reeving::Body body, bool unit) {
  if (body == reeving::on_trolley) return "brake trolley";
  if (body >= 0) return "end on block";
  return unit ? "brake unit" : "dead end";
}

}  // namespace

std::vector<ContactPoint> contact_points(const Rig& rig, const views::RigPose& pose) {
  const reeving::Inputs& in = *rig.reeving.inputs;
  const reeving::Sweep& sweep = rig.reeving.solved()->sweeps[pose.sweep];
  std::vector<ContactPoint> all;
  const auto add = [&](std::size_t line, std::string what, Point3 at) {
    all.push_back({static_cast<int>(all.size()) + 1, static_cast<int>(line), std::move(what), at});
  };
  for (std::size_t l = 0; l < in.lines.size(); ++l) {
    if (rig.lines[l].kind == Item::Kind::support_line) continue;
    const reeving::Line& line = in.lines[l];
    const auto& legs = pose.lines[l].legs;
    add(l, std::string(end_words(line.from.body, false)), legs.front().front());
    for (int k = 0; k < line.sheaves; ++k) {
      const auto sheave = static_cast<std::size_t>(line.first_sheave + k);
      const reeving::Turn& turn = sweep.turns[pose.pose * in.sheaves.size() + sheave];
      const std::string& id = rig.layout.sheaves[static_cast<std::size_t>(rig.reeved[sheave])].id.value;
      add(l, id + " on", turn.on);
      add(l, id + " off", turn.off);
    }
    add(l, std::string(end_words(line.to.body, static_cast<int>(l) == in.braking)), legs.back().back());
  }
  return all;
}

Table contact_table(const Rig& rig, const views::RigPose& rest, const views::RigPose& full) {
  Table table{"Contact points",
              {"no.", "line", "point", "CH at rest", "across", "height", "CH at full travel", "across", "height"},
              {},
              {"Numbered along each line from the end nearer the brake trolley. Height: of the site's third axis."}};
  const auto before = contact_points(rig, rest), after = contact_points(rig, full);
  const auto length = [](double m) { return tables::cell(m, Dimension::length); };
  for (std::size_t i = 0; i < before.size(); ++i) {
    std::vector<Cell> row{std::to_string(before[i].number),
                          words::id_of(rig.layout, rig.lines[static_cast<std::size_t>(before[i].line)]),
                          before[i].what};
    for (const Point3& p : {before[i].at, after[i].at})
      row.insert(row.end(), {length(rig.frame.chainage_m(p)), length(rig.frame.across_m(p)), length(p.z)});
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace fairlead::sheets

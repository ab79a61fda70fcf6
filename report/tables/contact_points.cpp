#include <fmt/format.h>

#include "report/tables/parts.hpp"
#include "report/words/names.hpp"

namespace fairlead::tables {
namespace {

using reeving::Leg;

std::string body_name(const Rig& rig, std::size_t line, const reeving::End& end, bool last) {
  if (end.body == reeving::on_trolley) return "brake trolley";
  if (end.body >= 0) return words::name_of(rig.layout, {Item::Kind::block, end.body});
  const bool outlet = last && line == static_cast<std::size_t>(rig.reeving.inputs->braking);
  if (outlet) return "brake unit";
  if (!rig.loads.inputs) return "anchor";
  const loads::LineAnchors& held = rig.loads.inputs->line_anchors.at(line);
  const int anchor = last ? held.to : held.from;
  return anchor == loads::no_anchor ? "anchor" : words::name_of(rig.layout, {Item::Kind::anchor, anchor});
}

class Points {
 public:
  Points(const Rig& rig, const ShownPose& shown, Table table) : rig_(rig), shown_(shown), table_(std::move(table)) {}

  Table all() && {
    const reeving::Inputs& in = *rig_.reeving.inputs;
    for (std::size_t l = 0; l < in.lines.size(); ++l) of_line(l, in.lines[l]);
    return std::move(table_);
  }

 private:
  void of_line(std::size_t index, const reeving::Line& line) {
    const reeving::Inputs& in = *rig_.reeving.inputs;
    const std::string id = words::id_of(rig_.layout, rig_.lines.at(index));
    const Leg* leg = &shown_.sweep->legs[shown_.index * in.legs() + in.legs_before(index)];
    row(id, body_name(rig_, index, line.from, false), leg->from, leg, leg->from_tension_N);
    for (int k = 0; k < line.sheaves; ++k, ++leg) {
      const auto sheave = static_cast<std::size_t>(line.first_sheave + k);
      const std::string name = sheave_name(rig_, sheave);
      if (in.sheaves[sheave].radius_m > 0) {
        row(id, name + ", on", leg->to, nullptr, leg->to_tension_N);
        row(id, name + ", off", leg[1].from, leg + 1, leg[1].from_tension_N);
      } else {
        row(id, name, leg[1].from, leg + 1, leg[1].from_tension_N);
      }
    }
    row(id, body_name(rig_, index, line.to, true), leg->to, nullptr, leg->to_tension_N);
  }

  /// `onward`: the leg that begins there.
  void row(const std::string& line, std::string what, Point3 p, const Leg* onward, double tension_N) {
    const auto length = [](double m) { return cell(m, Dimension::length); };
    table_.rows.push_back({std::to_string(table_.rows.size() + 1), line, std::move(what), length(p.x), length(p.y),
                           length(p.z), onward ? length(onward->length_m) : Cell{},
                           onward ? length(onward->sag_m) : Cell{}, cell(tension_N, Dimension::force)});
  }

  const Rig& rig_;
  const ShownPose& shown_;
  Table table_;
};

}  // namespace

Table contact_points(const Dossier& dossier, Position position, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const auto& axes = rig.layout.site.axes;
  const bool at_rest = position == Position::rest;
  Table table{at_rest ? "Contact points at rest" : "Contact points at full travel",
              {"no.", "line", "point", axes[0], axes[1], axes[2], "leg onward", "sag of it", "tension"},
              {},
              {}};
  const auto shown = at_rest ? rest_pose(rig) : full_pose(rig);
  if (!rig.reeving.solved()) return undetermined(std::move(table), rig.reeving.result->error());
  if (!shown) return table;
  table.notes = {told(rig, *shown, style) +
                 ". Every line from its end nearer the brake trolley. Sag: below the chord."};
  return Points(rig, *shown, std::move(table)).all();
}

}  // namespace fairlead::tables

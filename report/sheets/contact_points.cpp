#include "report/sheets/contact_points.hpp"

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

}  // namespace fairlead::sheets

#include "geometry/studies/setting_out.hpp"

#include <algorithm>
#include <limits>

#include "geometry/rig/inputs.hpp"

namespace fairlead {
namespace {

std::vector<SetOut> marks_of(const Rig& rig) {
  std::vector<SetOut> marks;
  for (SetOutPoint& point : set_out_points(rig)) {
    SetOut mark{.point = std::move(point)};
    if (mark.point.at) mark.from_line = offset_from_line(rig, *mark.point.at);
    marks.push_back(std::move(mark));
  }
  return marks;
}

void tie(const Rig& rig, double longest_tape_m, SettingOut& out) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  TieInputs in{.in_turn = false, .longest_tape_m = longest_tape_m};
  if (rig.layout.points)
    for (const SurveyPoint& peg : *rig.layout.points->pegs) {
      in.known.push_back(peg.at);
      out.tape_ends.push_back(peg.id);
    }
  for (const SetOut& mark : out.marks) {
    in.wanted.push_back(mark.point.at.value_or(Point3{nan, nan, nan}));
    out.tape_ends.push_back(mark.point.id);
  }
  for (const Structure& structure : rig.layout.structures)
    if (const auto solid = solid_of(structure)) in.obstacles.push_back(*solid);
  out.longest_tape_m = longest_tape_m;
  out.ties = choose_ties(in).wanted;
}

/// Heights above the first mark that has a place.
void level(const Rig& rig, SettingOut& out) {
  const auto bench =
      std::find_if(out.marks.begin(), out.marks.end(), [](const SetOut& m) { return m.point.at.has_value(); });
  if (bench == out.marks.end()) return;
  out.bench = static_cast<int>(bench - out.marks.begin());
  const Point3 from = *bench->point.at;
  for (SetOut& mark : out.marks)
    if (mark.point.at) mark.rise_m = dot(*mark.point.at - from, rig.frame.up);
  if (rig.layout.landing) out.platform_rise_m = rig.layout.landing->platform_level_m - from.z;
}

}  // namespace

SettingOut setting_out(const Rig& rig, double longest_tape_m) {
  SettingOut out;
  out.marks = marks_of(rig);
  tie(rig, longest_tape_m, out);
  level(rig, out);
  if (const auto* main_line = rig.main_line.solved())
    out.stringing = mainline::stringing(*rig.main_line.inputs, *main_line);
  else
    out.stringing = tl::unexpected(rig.main_line.result->error());
  if (const auto* reeving = rig.reeving.solved())
    out.hand_pulls = reeving::hand_pulls(*rig.reeving.inputs, *reeving);
  else
    out.hand_pulls = tl::unexpected(rig.reeving.result->error());
  return out;
}

}  // namespace fairlead

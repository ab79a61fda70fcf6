#include <algorithm>

#include "geometry/checks/check.hpp"
#include "geometry/checks/judged_on.hpp"

namespace fairlead {
namespace {

std::string id_of(const Layout& layout, Item item) {
  const auto i = static_cast<std::size_t>(item.index);
  switch (item.kind) {
    case Item::Kind::anchor:
      return layout.anchors[i].id;
    case Item::Kind::sheave:
      return layout.sheaves[i].id;
    case Item::Kind::line:
      return layout.lines[i].id;
    case Item::Kind::block:
      return layout.blocks[i].id;
    case Item::Kind::connector:
      return layout.connectors[i].id;
    case Item::Kind::layout:
      return "layout";
    case Item::Kind::main_line:
      return "main_line";
    case Item::Kind::brake_unit:
      return "brake_unit";
    case Item::Kind::brake_trolley:
      return "brake_trolley";
    case Item::Kind::backup_brake:
      return "backup_brake";
    case Item::Kind::rider:
      return "riders";
    case Item::Kind::landing:
      return "landing";
  }
  return {};
}

/// A waiver counts only up to its date, judged at a known date.
void apply_waivers(const Layout& layout, std::vector<Finding>& findings) {
  const std::optional<Date> today = judged_on(layout);
  if (!today) return;
  for (std::size_t w = 0; w < layout.waivers.size(); ++w) {
    const Waiver& waiver = layout.waivers[w];
    if (!(*today <= waiver.until.value)) continue;
    for (Finding& finding : findings)
      if (finding.verdict != Verdict::pass && finding.waiver < 0 && finding.check->name == waiver.check.value &&
          (!waiver.subject || *waiver.subject == id_of(layout, finding.subject)))
        finding.waiver = static_cast<int>(w);
  }
}

std::vector<Finding> run_checks(const Rig& rig) {
  std::vector<Finding> findings;
  for (const Check* check : all_checks()) check->run(rig, findings);
  return findings;
}

/// True where a finer sweep could still turn the verdict: the value is on the safe side and only its bound is not.
bool only_a_gap(const Finding& finding) {
  return finding.verdict == Verdict::undetermined && finding.measured && std::isfinite(finding.bound) &&
         finding.value != finding.bound;
}

}  // namespace

Judged judge(Layout layout, const Near& near, const Work& work) {
  // 20 mm and 1 mrad halved six times are 0.3 mm and 0.016 mrad: below what a crew can set out.
  constexpr int halvings = 6;
  Resolution resolution;
  Judged judged{solve(std::move(layout), near, resolution, work), {}};
  judged.findings = run_checks(judged.rig);
  for (int i = 0; i < halvings && std::any_of(judged.findings.begin(), judged.findings.end(), only_a_gap); ++i) {
    resolution.length_m /= 2;
    resolution.angle_rad /= 2;
    judged.rig = solve(judged.rig.layout, {&judged.rig}, resolution, work);
    judged.findings = run_checks(judged.rig);
  }
  apply_waivers(judged.rig.layout, judged.findings);
  return judged;
}

}  // namespace fairlead

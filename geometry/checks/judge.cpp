#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "geometry/checks/check.hpp"
#include "geometry/checks/judged_on.hpp"
#include "geometry/checks/moved.hpp"
#include "geometry/layout/items.hpp"

namespace fairlead {
namespace {

/// A waiver that names a subject covers that one; ids are given to what there can be several of.
bool covers(const Waiver& waiver, const Layout& layout, Item subject) {
  const std::string* id = given_id(layout, subject);
  return !waiver.subject || (id && *id == *waiver.subject);
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
          covers(waiver, layout, finding.subject))
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

/// What poses leave open between them halving halves, and more. False where no open gap has become less by a quarter:
/// then something else leaves them open (what an arrest's instants leave out, the steps in which leans are told).
bool narrows(const std::vector<Finding>& before, const std::vector<Finding>& after) {
  const auto gap = [](const Finding& finding) { return std::abs(finding.bound - finding.value); };
  return std::any_of(after.begin(), after.end(), [&](const Finding& now) {
    if (!only_a_gap(now)) return false;
    const auto was = std::find_if(before.begin(), before.end(), [&](const Finding& finding) {
      return finding.check == now.check && finding.subject == now.subject;
    });
    return was == before.end() || !only_a_gap(*was) || gap(now) <= 0.75 * gap(*was);
  });
}

/// 20 mm and 1 mrad halved six times are 0.3 mm and 0.016 mrad: below what a crew can set out.
constexpr int most_halvings = 6;

/// As if every anchor stood where it is drawn, and without waivers.
Judged judge_in_place(Resolution resolution, int halvings, Layout layout, const Near& near, const Work& work) {
  Judged judged{solve(std::move(layout), near, resolution, work), {}, resolution};
  judged.findings = run_checks(judged.rig);
  for (int i = 0; i < halvings && std::any_of(judged.findings.begin(), judged.findings.end(), only_a_gap); ++i) {
    judged.resolution.length_m /= 2;
    judged.resolution.angle_rad /= 2;
    // Finer poses do not change how riders stop: the arrest is that of the poses it was first solved with.
    const bool held = judged.rig.arrest_held;
    judged.rig = solve(judged.rig.layout, {&judged.rig, true, near.drawn}, judged.resolution, work);
    judged.rig.arrest_held = held;
    const std::vector<Finding> before = std::exchange(judged.findings, run_checks(judged.rig));
    if (!narrows(before, judged.findings)) break;
  }
  return judged;
}

/// Over all that the anchors may move.
void judge_moved(Judged& judged, Resolution resolution, int halvings, const Work& work) {
  const Layout boxed = with_give(judged.rig);
  if (too_many_move(boxed))
    return leave_unknown(judged.findings,
                         fmt::format("movement of more than {} anchors is not judged together", most_anchors));
  const std::vector<MovedPlace> places = corners_of(boxed, judged.rig.frame);
  std::vector<std::vector<Finding>> at_corner(places.size());
  std::vector<char> settles(places.size());
  std::vector<Resolution> resolutions(places.size(), judged.resolution);
  for_each_index(work, static_cast<int>(places.size()), [&](int c) {
    const auto corner = static_cast<std::size_t>(c);
    Judged there =
        judge_in_place(resolution, halvings, places[corner].layout, {&judged.rig, true, false}, {.stop = work.stop});
    settles[corner] = settled(judged.rig, there.rig);
    resolutions[corner] = there.resolution;
    at_corner[corner] = std::move(there.findings);
  });
  for (const Resolution& there : resolutions)
    if (there.length_m < judged.resolution.length_m) judged.resolution = there;
  if (!places.empty()) widen(judged.findings, places, at_corner);
  if (std::ranges::count(settles, 0) > 0)
    leave_unknown(judged.findings,
                  "where the anchors give way they are pulled more than 5 % harder; give their \"movement\"");
}

}  // namespace

Judged judge(Layout layout, const Near& near, const Work& work) {
  Judged judged = judge_in_place({}, most_halvings, std::move(layout), near, work);
  judge_moved(judged, {}, most_halvings, work);
  apply_waivers(judged.rig.layout, judged.findings);
  return judged;
}

Judged judge_at(Resolution resolution, Layout layout, const Near& near, const Work& work) {
  Judged judged = judge_in_place(resolution, 0, std::move(layout), near, work);
  judge_moved(judged, resolution, 0, work);
  return judged;
}

}  // namespace fairlead

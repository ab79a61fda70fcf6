#include "geometry/checks/moved.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "geometry/checks/counterpart.hpp"
#include "geometry/checks/list.hpp"

namespace fairlead {
namespace {

bool moves(const Anchor& anchor) {
  return anchor.movement &&
         (anchor.movement->value.along_m > 0 || anchor.movement->value.across_m > 0 || anchor.movement->value.up_m > 0);
}

std::vector<AnchorId> that_move(const Layout& layout) {
  std::vector<AnchorId> found;
  for (std::size_t a = 0; a < layout.anchors.size(); ++a)
    if (moves(layout.anchors[a])) found.push_back(static_cast<AnchorId>(a));
  return found;
}

int severity(const Finding& finding) {
  switch (finding.verdict) {
    case Verdict::pass:
      return 0;
    case Verdict::not_judged:
      return 1;
    case Verdict::undetermined:
      return 2;
    case Verdict::fail:
      return 3;
  }
  return 3;
}

/// One finding and what became of it at every corner.
class Widened {
 public:
  Widened(const Finding& drawn, std::vector<const Finding*> corners) : drawn_(drawn), corners_(std::move(corners)) {}

  Finding worst(const std::vector<MovedPlace>& places) const {
    const Finding* worst = &drawn_;
    std::size_t where = corners_.size();
    for (std::size_t c = 0; c < corners_.size(); ++c) {
      if (!corners_[c]) return unknown("what it judges is not there with " + places[c].words);
      if (worse(*corners_[c], *worst)) worst = corners_[c], where = c;
    }
    Finding finding = *worst;
    if (where < corners_.size()) finding.facts.push_back({"moved", places[where].words});
    if (finding.verdict == Verdict::pass && finding.measured) stray_between(finding);
    return finding;
  }

 private:
  Finding unknown(std::string why) const {
    Finding finding = drawn_;
    if (finding.verdict == Verdict::fail) return finding;
    finding.verdict = Verdict::undetermined;
    finding.why = std::move(why);
    return finding;
  }

  /// A worse verdict, or among equal ones nearer to the limit; among those that fail, farther beyond it.
  static bool worse(const Finding& a, const Finding& b) {
    if (severity(a) != severity(b)) return severity(a) > severity(b);
    const std::optional<double> limit = limit_of(a);
    if (!limit || !a.measured || !b.measured) return false;
    const double far_a = std::abs(a.bound - *limit), far_b = std::abs(b.bound - *limit);
    return a.verdict == Verdict::fail ? far_a > far_b : far_a < far_b;
  }

  void stray_between(Finding& finding) const {
    double stray = 0;
    bool alike = true;
    for (std::size_t c = 0; c < corners_.size(); ++c) {
      const double mean = (corners_[c]->value + corners_[corners_.size() - 1 - c]->value) / 2;
      stray = greater(stray, std::abs(drawn_.value - mean));
      alike = alike && corners_[c]->value == drawn_.value;
    }
    if (alike) return;
    const std::optional<double> limit = limit_of(finding);
    const double left = limit ? std::abs(*limit - finding.bound) : 0;
    if (limit) finding.bound += std::copysign(stray, *limit - finding.bound);
    if (limit && stray <= left) return;
    finding.verdict = Verdict::undetermined;
    finding.why = limit ? "between the corners of the anchors' movement it may pass the limit"
                        : "how it changes over the anchors' movement is not judged";
  }

  const Finding& drawn_;
  std::vector<const Finding*> corners_;
};

}  // namespace

Layout moved(Layout layout, AnchorId id, Vec3 by) {
  const auto move = [&](Given<Point3>& point) { point.value = point.value + by; };
  move(layout.anchors[static_cast<std::size_t>(id)].position);
  for (Sheave& sheave : layout.sheaves) {
    if (sheave.on != Carrier{id}) continue;
    if (sheave.position) move(*sheave.position);
    if (sheave.swivel_at) move(*sheave.swivel_at);
  }
  if (layout.brake_unit.on == id) move(layout.brake_unit.outlet);
  return layout;
}

Layout with_give(const Rig& drawn) {
  Layout layout = drawn.layout;
  const loads::Loads* loads = drawn.loads.solved();
  for (std::size_t a = 0; a < layout.anchors.size(); ++a) {
    Anchor& anchor = layout.anchors[a];
    if (!anchor.stiffness_N_per_m || !loads) continue;
    const PerAxis& stiffness = *anchor.stiffness_N_per_m;
    const auto& pull_N = loads->anchors[a].pull_N;
    anchor.movement = Given<Size>{
        {pull_N[0].bound / stiffness.along, pull_N[1].bound / stiffness.across, pull_N[2].bound / stiffness.up},
        anchor.stiffness_N_per_m->place};
  }
  return layout;
}

bool settled(const Rig& drawn, const Rig& at_corner) {
  constexpr double growth = 1.05;  ///< a further round would add a twentieth of the movement, and then of that
  const loads::Loads *before = drawn.loads.solved(), *after = at_corner.loads.solved();
  for (std::size_t a = 0; a < drawn.layout.anchors.size(); ++a) {
    if (!drawn.layout.anchors[a].stiffness_N_per_m) continue;
    if (!before || !after) return false;
    for (std::size_t axis = 0; axis < 3; ++axis)
      // A pull that the movement only brings about is measured by the whole force on the anchor.
      if (!(after->anchors[a].pull_N[axis].bound <=
            growth * before->anchors[a].pull_N[axis].bound + (growth - 1) * before->demands[a].force_N.value))
        return false;
  }
  return true;
}

std::vector<MovedPlace> corners_of(const Layout& layout, const Frame& frame) {
  struct Step {
    AnchorId anchor;
    std::size_t axis;
    double reach_m;
  };
  const Vec3 axes[] = {frame.along, frame.across, frame.up};
  std::vector<Step> steps;
  const std::vector<AnchorId> moving = that_move(layout);
  if (moving.empty() || too_many_move(layout)) return {};
  for (const AnchorId id : moving) {
    const Size& box = layout.anchors[static_cast<std::size_t>(id)].movement->value;
    const double reach_m[] = {box.along_m, box.across_m, box.up_m};
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (reach_m[axis] > 0) steps.push_back({id, axis, reach_m[axis]});
  }
  std::vector<MovedPlace> places;
  for (unsigned corner = 0; corner < 1U << steps.size(); ++corner) {
    MovedPlace place{layout, ""};
    for (const AnchorId id : moving) {
      double by_m[3]{};
      for (std::size_t s = 0; s < steps.size(); ++s)
        if (steps[s].anchor == id) by_m[steps[s].axis] = (corner >> s & 1U ? 1 : -1) * steps[s].reach_m;
      Vec3 by;
      for (std::size_t axis = 0; axis < 3; ++axis) by += by_m[axis] * axes[axis];
      place.layout = moved(std::move(place.layout), id, by);
      place.words += fmt::format("{}anchor {} moved by ({:g}, {:g}, {:g}) mm along, across, up",
                                 place.words.empty() ? "" : ", ", layout.anchors[static_cast<std::size_t>(id)].id.value,
                                 1000 * by_m[0], 1000 * by_m[1], 1000 * by_m[2]);
    }
    places.push_back(std::move(place));
  }
  return places;
}

bool too_many_move(const Layout& layout) { return that_move(layout).size() > static_cast<std::size_t>(most_anchors); }

void widen(std::vector<Finding>& drawn, const std::vector<MovedPlace>& places,
           const std::vector<std::vector<Finding>>& at_corner) {
  std::vector<Finding> widened;
  for (std::size_t f = 0; f < drawn.size(); ++f) {
    // How far its members let an anchor move is told from where it is drawn.
    if (drawn[f].check == &anchor_movement) {
      widened.push_back(drawn[f]);
      continue;
    }
    std::vector<const Finding*> corners;
    for (const std::vector<Finding>& findings : at_corner)
      corners.push_back(counterpart(findings, drawn[f], ordinal(drawn, f)));
    widened.push_back(Widened(drawn[f], std::move(corners)).worst(places));
  }
  for (std::size_t c = 0; c < places.size(); ++c)
    for (std::size_t f = 0; f < at_corner[c].size(); ++f) {
      const Finding& finding = at_corner[c][f];
      if (finding.verdict == Verdict::pass || counterpart(widened, finding, ordinal(at_corner[c], f))) continue;
      widened.push_back(finding);
      widened.back().facts.push_back({"moved", places[c].words});
    }
  drawn = std::move(widened);
}

void leave_unknown(std::vector<Finding>& findings, const std::string& why) {
  for (Finding& finding : findings) {
    if (finding.verdict != Verdict::pass) continue;
    finding.verdict = Verdict::undetermined;
    finding.why = why;
  }
}

}  // namespace fairlead

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/clearance/moments.hpp"
#include "geometry/clearance/passings.hpp"
#include "geometry/clearance/profiles.hpp"
#include "geometry/clearance/search.hpp"
#include "geometry/clearance/span.hpp"

namespace fairlead::clearance {
namespace {

template <class... Numbers>
bool finite(Numbers... numbers) {
  return (std::isfinite(numbers) && ...);
}
bool finite(Point3 p) { return finite(p.x, p.y, p.z); }
bool finite(Vec3 v) { return finite(v.x, v.y, v.z); }

/// Axes as given are unit and square to each other to this.
constexpr double square = 1e-9;
bool is_unit(Vec3 v) { return std::abs(norm(v) - 1) <= square; }

bool is_solid(const Box& box) {
  return finite(box.centre) && is_unit(box.x) && is_unit(box.y) && is_unit(box.z) &&
         std::abs(dot(box.x, box.y)) <= square && std::abs(dot(box.y, box.z)) <= square &&
         std::abs(dot(box.z, box.x)) <= square && finite(box.half_m) && box.half_m.x >= 0 && box.half_m.y >= 0 &&
         box.half_m.z >= 0;
}
bool is_solid(const Post& post) {
  return finite(post.from) && finite(post.to) && norm(post.to - post.from) > 0 && finite(post.radius_m) &&
         post.radius_m >= 0;
}
bool is_solid(const Plane& plane) { return finite(plane.through) && is_unit(plane.normal); }

bool is_swing(const Swing& swing) {
  return !swing.leans.empty() && finite(swing.step_m, swing.sideways_rad) && swing.step_m > 0 &&
         swing.sideways_rad >= 0 && std::all_of(swing.leans.begin(), swing.leans.end(), [](const Leans& leans) {
           return finite(leans.back_rad, leans.forward_rad) && leans.back_rad <= 0 && leans.forward_rad >= 0;
         });
}

bool is_envelope(const Envelope& reach) {
  return finite(reach.above_m, reach.below_m, reach.width_m, reach.length_m, reach.margin_m) &&
         reach.above_m + reach.below_m >= 0 && reach.width_m >= 0 && reach.length_m >= 0 && reach.margin_m >= 0 &&
         std::all_of(reach.corners.begin(), reach.corners.end(), [](const Vec3& c) { return finite(c); });
}

bool is_wind(const SideWind& wind) {
  return finite(wind.line_N_per_m, wind.rider_N, wind.trolley_N, wind.lean_rad) && wind.line_N_per_m >= 0 &&
         wind.rider_N >= 0 && wind.trolley_N >= 0 && wind.lean_rad >= 0;
}

/// What is wrong with the inputs; "" when nothing is.
std::string refuse(const Inputs& in, const reeving::Inputs& rig, const reeving::Reeving& reeving) {
  for (std::size_t i = 0; i < in.structures.size(); ++i)
    if (!in.structures[i].scan &&
        !std::visit([](const auto& shape) { return is_solid(shape); }, in.structures[i].shape))
      return fmt::format("the shape of structure {} encloses nothing", i + 1);
  if (in.sheaves.size() != rig.sheaves.size() || in.blocks.size() != rig.blocks.size())
    return "not every sheave and block has its body";
  for (std::size_t s = 0; s < in.sheaves.size(); ++s) {
    if (!stands_on_anchor(rig, rig.sheaves[s])) continue;
    if (!is_solid(post_of(rig.sheaves[s], in.sheaves[s]))) return fmt::format("sheave {} has no body", s + 1);
    if (in.sheaves[s].frame && !is_solid(*in.sheaves[s].frame))
      return fmt::format("the frame of sheave {} is no box", s + 1);
  }
  for (std::size_t b = 0; b < in.blocks.size(); ++b)
    if (in.blocks[b] && !is_solid(*in.blocks[b])) return fmt::format("the body of block {} is no box", b + 1);
  if (in.unit && !is_solid(*in.unit)) return "the body of the brake unit is no box";
  if (in.rider && !is_envelope(*in.rider)) return "the rider's envelope is no box";
  if (in.swing && !is_swing(*in.swing)) return "the rider's swing is no angle";
  if (!(finite(in.main_line_radius_m, in.meeting_m, in.hands_m, in.resolution_m) && in.main_line_radius_m >= 0 &&
        in.meeting_m >= 0 && in.hands_m >= 0 && in.resolution_m > 0))
    return "a length of the clearances is not finite";
  if (in.sweeps.empty()) return "there is no passage to look at";
  for (const int sweep : in.sweeps)
    if (!(sweep >= 0 && sweep < static_cast<int>(reeving.sweeps.size()))) return "a passage to look at is not solved";
  for (const Span& span : in.spans) {
    if (!(span.sweep >= 0 && span.sweep < static_cast<int>(reeving.sweeps.size())))
      return "a passage to look at is not solved";
    if (!is_wind(span.wind)) return "the side wind is no number";
  }
  if (in.spans.empty() && !in.structures.empty()) return "there is no passage to look at beside the structures";
  if (!finite(in.push_off_m)) return "the push-off is nowhere";
  return "";
}

bool finite_wheels(const Passage& passage) {
  for (int i = 0; i < passage.poses; ++i)
    if (!finite(passage.pose(i).rider) || !finite(passage.pose(i).trolley)) return false;
  return true;
}

bool finite(const Passage& passage) {
  if (!finite_wheels(passage)) return false;
  for (int i = 0; i < passage.poses; ++i) {
    for (int leg = 0; leg < static_cast<int>(passage.rig.legs()); ++leg) {
      const reeving::Leg& one = passage.leg(i, leg);
      if (!finite(one.from) || !finite(one.to) || !finite(one.load_N_per_m) ||
          !finite(one.H_N, one.length_m, one.from_tension_N, one.to_tension_N))
        return false;
    }
    for (int b = 0; b < static_cast<int>(passage.rig.blocks.size()); ++b) {
      const reeving::Placement& at = passage.block(i, b).placement;
      if (!finite(at.at) || !finite(at.turned_x) || !finite(at.turned_y) || !finite(at.turned_z)) return false;
    }
  }
  return true;
}

Passage passage_of(const Inputs& in, const reeving::Inputs& rig, const reeving::Reeving& reeving, int sweep) {
  const reeving::Sweep& poses = reeving.sweeps[static_cast<std::size_t>(sweep)];
  const int first = poses.running == reeving::Running::at_rest ? 0 : poses.rest_pose;
  return {in,    rig,   rig.sweeps[static_cast<std::size_t>(sweep)],
          poses, first, static_cast<int>(poses.poses.size()) - first};
}

constexpr const char* no_place = "a solved pose has a place that is no number";

/// The plan's movers that pairs of such a run look at.
Solved<Run> with_movers(Run run, const Plan& plan) {
  std::vector<bool> wanted(plan.movers.size());
  const auto want = [&](const Pair& pair) {
    if (pair.spans != run.spans || (pair.a.kind == Thing::Kind::rider && !run.with_rider())) return;
    for (const Pair::Meeting& meeting : pair.meetings)
      wanted[static_cast<std::size_t>(meeting.a)] = wanted[static_cast<std::size_t>(meeting.b)] = true;
  };
  for (const Pair& pair : plan.pairs) want(pair);
  if (plan.hands) want(*plan.hands);
  for (std::size_t i = 0; i < plan.movers.size(); ++i) {
    if (!wanted[i]) {
      run.movers.push_back(Fixed(Plane{}));
      continue;
    }
    auto mover = make(plan.movers[i], run.passage);
    if (!mover) return tl::unexpected(mover.error());
    if (const Chain* chain = std::get_if<Chain>(&*mover); chain && !chain->finite()) return unsolved(no_place);
    if (const auto* hulls = std::get_if<MovingHulls>(&*mover); hulls && !hulls->finite()) return unsolved(no_place);
    run.movers.push_back(std::move(*mover));
  }
  return run;
}

Solved<Run> run_of(const Passage& passage, int sweep, const Plan& plan) {
  if (passage.poses < 1 || !finite(passage)) return unsolved(no_place);
  return with_movers({passage, sweep, {}}, plan);
}

Solved<Run> run_of(const Span& span, const WholeSpan& whole, const Inputs& in, const reeving::Inputs& rig,
                   const Plan& plan) {
  const Passage passage{in,          rig, rig.sweeps[static_cast<std::size_t>(span.sweep)],
                        whole.sweep, 0,   static_cast<int>(whole.sweep.poses.size()),
                        span.wind};
  if (passage.poses < 1 || !finite_wheels(passage)) return unsolved(no_place);
  return with_movers({passage, span.sweep, {}, true, whole.added, span.rider}, plan);
}

/// Passages as they are solved, and those that begin with the push-off, whose poses are kept beside them.
class Runs {
 public:
  static tl::expected<std::unique_ptr<Runs>, Unsolved> of(const Inputs& in, const reeving::Inputs& rig,
                                                          const reeving::Reeving& reeving, const Plan& plan,
                                                          const Work& work) {
    auto runs = std::make_unique<Runs>();
    const std::size_t plain = in.sweeps.size(), spans = in.structures.empty() ? 0 : in.spans.size();
    runs->whole_.resize(spans);
    std::vector<std::optional<Solved<Run>>> solved(plain + spans);
    for_each_index(work, static_cast<int>(plain + spans), [&](int i) {
      const auto n = static_cast<std::size_t>(i);
      if (n < plain) {
        solved[n].emplace(run_of(passage_of(in, rig, reeving, in.sweeps[n]), in.sweeps[n], plan));
        return;
      }
      const Span& span = in.spans[n - plain];
      const auto sweep = static_cast<std::size_t>(span.sweep);
      auto whole = whole_span(in, rig, reeving.sweeps[sweep], rig.sweeps[sweep]);
      if (!whole) {
        solved[n].emplace(tl::unexpected(whole.error()));
        return;
      }
      runs->whole_[n - plain] = std::move(*whole);
      solved[n].emplace(run_of(span, runs->whole_[n - plain], in, rig, plan));
    });
    for (std::optional<Solved<Run>>& run : solved) {
      if (!run->has_value()) return tl::unexpected(run->error());
      runs->all.push_back(std::move(**run));
    }
    return runs;
  }

  std::vector<Run> all;

 private:
  std::vector<WholeSpan> whole_;
};

/// Least of all runs that know both; NaN, which nothing passes, where none does.
struct Seen {
  Gap gap;
  Least least;  ///< sweep: which of the runs
};
Seen least_gap(const Pair& pair, const std::vector<Run>& runs, double resolution_m) {
  std::vector<Meet> meets;
  for (std::size_t r = 0; r < runs.size(); ++r) {
    if (pair.spans != runs[r].spans || (pair.a.kind == Thing::Kind::rider && !runs[r].with_rider())) continue;
    for (const Pair::Meeting& meeting : pair.meetings)
      meets.push_back({&runs[r].movers[static_cast<std::size_t>(meeting.a)],
                       &runs[r].movers[static_cast<std::size_t>(meeting.b)], runs[r].passage.poses,
                       static_cast<int>(r)});
  }
  const Least least = search(meets, resolution_m);
  Gap gap{.a = pair.a, .b = pair.b};
  if (least.sweep < 0) {
    gap.least_m = {std::nan(""), std::nan(""), -1};
    return {gap, least};
  }
  const Run& run = runs[static_cast<std::size_t>(least.sweep)];
  const int pose = std::max(0, run.passage.first + least.pose - run.added);
  gap.least_m = {least.value_m, std::min(least.bound_m, least.value_m), pose};
  gap.sweep = run.sweep;
  gap.travel_m = travel_at(run.passage, least.pose, least.share);
  gap.on_a = least.nearest.on_a;
  gap.on_b = least.nearest.on_b;
  return {gap, least};
}

}  // namespace

std::string_view reason(Why why) {
  switch (why) {
    case Why::rides_on_it:
      return "one rolls on the other";
    case Why::own_sheave:
      return "the line runs over this sheave";
    case Why::own_block:
      return "the line is on this block";
    case Why::own_unit:
      return "the line runs out of the unit";
    case Why::own_trolley:
      return "the line is tied to the brake trolley, which rides on the main line";
    case Why::meet_at_sheave:
      return "the sheave between them brings them together";
    case Why::meet_at_block:
      return "both lead to one block";
    case Why::meet_at_end:
      return "both are tied to one place";
    case Why::tied_there:
      return "the line is tied to it";
    case Why::judged_as_hands:
      return "judged on its own, as the hands at the brake trolley";
    case Why::let_touch:
      return "the layout does not ask for it";
  }
  return "";
}

Solved<Clearances> solve(const Inputs& in, const reeving::Inputs& rig, const reeving::Reeving& reeving,
                         const Work& work) {
  if (const std::string why = refuse(in, rig, reeving); !why.empty()) return unsolved(why);
  Plan plan = plan_pairs(in, rig);

  const auto solved = Runs::of(in, rig, reeving, plan, work);
  if (!solved) return tl::unexpected(solved.error());
  const std::vector<Run>& runs = (*solved)->all;

  Clearances told;
  told.gaps.resize(plan.pairs.size());
  std::vector<std::optional<Moment>> beside(plan.pairs.size());
  for_each_index(work, static_cast<int>(plan.pairs.size()), [&](int i) {
    const auto n = static_cast<std::size_t>(i);
    const auto [gap, least] = least_gap(plan.pairs[n], runs, in.resolution_m);
    told.gaps[n] = gap;
    if (gap.sweep >= 0 && gap.a.kind == Thing::Kind::rider && gap.b.kind == Thing::Kind::structure)
      beside[n] = Moment{Moment::When::beside, gap,
                         rider_held(runs[static_cast<std::size_t>(least.sweep)], plan, gap, least.pose, least.share)};
  });
  if (plan.hands) {
    told.hands = Hands{.stretch_m = in.hands_m, .gap = least_gap(*plan.hands, runs, in.resolution_m).gap};
    for (const Run& run : runs)
      if (!run.spans) add_inside(run, *plan.hands, *told.hands);
  }
  for (const Run& run : runs)
    for (Passing& passing : passings_of(run, plan)) told.passings.push_back(std::move(passing));
  std::stable_sort(told.passings.begin(), told.passings.end(), [](const Passing& a, const Passing& b) {
    return std::pair(a.other.kind != Thing::Kind::sheave, a.other.index) <
           std::pair(b.other.kind != Thing::Kind::sheave, b.other.index);
  });
  if (in.drawn) {
    told.moments = moments_of(runs, plan, told.gaps);
    for (std::optional<Moment>& moment : beside)
      if (moment) told.moments.push_back(std::move(*moment));
    told.profiles = profiles_of(told.gaps, plan, runs, work);
  }
  told.excluded = std::move(plan.excluded);
  return told;
}

}  // namespace fairlead::clearance

#include "report/sheets/clearance_profiles.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/sheets/arrest_plots.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;
using clearance::Gap;
using clearance::Profile;
using Kind = clearance::Thing::Kind;

namespace {

/// The limit that a gap is judged by.
const std::optional<Limit>& limit_of(const Limits& limits, const Gap& gap) {
  const auto is = [&](Kind kind) { return gap.a.kind == kind || gap.b.kind == kind; };
  if (is(Kind::rider)) return is(Kind::structure) ? limits.rider_clearance_m : limits.rider_line_clearance_m;
  if (is(Kind::block)) return limits.block_clearance_m;
  if (is(Kind::structure)) return limits.line_clearance_m;
  return is(Kind::main_line) ? limits.line_to_main_line_m : limits.line_to_line_m;
}

/// Beyond this a plot shows nothing: its height serves the limit, the least gap and the way from one to the other.
double farthest_drawn_m(const Gap& gap, double limit_m) {
  const auto [low, high] = std::minmax({0.0, gap.least_m.value, limit_m});
  constexpr double least_above_m = 0.1;
  return high + std::clamp((high - low) / 2, least_above_m, clearance::profile_reach_m);
}

/// The stretches of a profile that are no farther than that, to where they cross it; in travels and gaps.
std::vector<std::vector<Paper>> within(const Profile& profile, double farthest_m) {
  std::vector<std::vector<Paper>> stretches;
  bool open = false;
  const Profile::At* before = nullptr;
  for (const Profile::At& at : profile.at) {
    const bool near = at.gap_m <= farthest_m;
    const auto crossing = [&](const Profile::At& in, const Profile::At& out) {
      return in.travel_m + (farthest_m - in.gap_m) / (out.gap_m - in.gap_m) * (out.travel_m - in.travel_m);
    };
    if (near && !open) {
      stretches.emplace_back();
      if (before && std::isfinite(before->gap_m)) stretches.back().push_back({crossing(at, *before), farthest_m});
    }
    if (near) stretches.back().push_back({at.travel_m, at.gap_m});
    if (!near && open && std::isfinite(at.gap_m)) stretches.back().push_back({crossing(*before, at), farthest_m});
    open = near;
    before = &at;
  }
  return stretches;
}

struct Curve {
  const Profile* profile;
  const Gap* gap;
  double limit_m;
};

void draw(const Canvas& canvas, Paper top_left, double width_mm, double height_mm, const Curve& curve, const Rig& rig,
          const Style& style) {
  const Box all{top_left.x_mm, top_left.y_mm - height_mm, top_left.x_mm + width_mm, top_left.y_mm};
  const Box box = under_title(canvas, all, "GAP OVER THE TRAVEL");
  const double farthest_m = farthest_drawn_m(*curve.gap, curve.limit_m);
  std::string says = fmt::format("{} and {}; {}", tables::thing(rig, curve.gap->a), tables::thing(rig, curve.gap->b),
                                 tables::passage(rig, curve.gap->sweep));
  const auto& at = curve.profile->at;
  if (std::any_of(at.begin(), at.end(), [&](const Profile::At& one) { return !(one.gap_m <= farthest_m); }))
    says += fmt::format("; farther than {} is not drawn", words::shown(farthest_m, Dimension::length, style));
  canvas.text({all.left, box.top + 0.5}, says, small_cap_mm, Layer::text);
  double low = std::min(0., curve.limit_m), high = curve.limit_m;
  std::vector<PlotCurve> pieces;
  for (std::vector<Paper>& stretch : within(*curve.profile, farthest_m)) {
    for (const Paper& point : stretch) low = std::min(low, point.y_mm), high = std::max(high, point.y_mm);
    pieces.push_back({std::move(stretch), "", {medium_mm, LineType::continuous, Layer::envelope}});
  }
  const double about = 0.05 * (high - low);
  constexpr double names_mm = 34;
  predicted_plot(canvas, box, axis_of("travel", Dimension::length, at.front().travel_m, at.back().travel_m, style),
                 axis_of("gap", Dimension::length, low - about, high + about, style), std::move(pieces),
                 {{"limit " + words::shown(curve.limit_m, Dimension::length, style), curve.limit_m}}, names_mm);
}

}  // namespace

std::vector<Block> clearance_profiles(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  const clearance::Clearances& solved = *rig.clearance.solved();
  std::vector<Block> blocks;
  for (const Profile& profile : solved.profiles) {
    const Gap& gap = solved.gaps[profile.gap];
    const auto& limit = limit_of(rig.layout.limits, gap);
    const auto known = std::count_if(profile.at.begin(), profile.at.end(),
                                     [](const Profile::At& at) { return std::isfinite(at.gap_m); });
    if (!limit || known < 2 || gap.least_m.value > limit->at + clearance::profile_reach_m) continue;
    const Curve curve{&profile, &gap, limit->at};
    constexpr double least_mm = 120, height_mm = 62;
    blocks.push_back({[](const Canvas&) { return least_mm; }, [](const Canvas&, double) { return height_mm; },
                      [curve, &rig, style](const Canvas& canvas, Paper top_left, double width_mm) {
                        draw(canvas, top_left, width_mm, height_mm, curve, rig, style);
                      }});
  }
  return blocks;
}

}  // namespace fairlead::sheets

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

struct Curve {
  const Profile* profile;
  const Gap* gap;
  double limit_m;
};

void draw(const Canvas& canvas, Paper top_left, double width_mm, double height_mm, const Curve& curve, const Rig& rig,
          const Style& style) {
  const Box all{top_left.x_mm, top_left.y_mm - height_mm, top_left.x_mm + width_mm, top_left.y_mm};
  const Box box = under_title(canvas, all, "GAP OVER THE TRAVEL");
  canvas.text({all.left, box.top + 0.5},
              fmt::format("{} and {}; {}", tables::thing(rig, curve.gap->a), tables::thing(rig, curve.gap->b),
                          tables::passage(rig, curve.gap->sweep)),
              small_cap_mm, Layer::text);
  const auto& at = curve.profile->at;
  double low = std::min(0., curve.limit_m), high = curve.limit_m;
  std::vector<PlotCurve> pieces;
  bool open = false;
  for (const Profile::At& one : at) {
    if (!std::isfinite(one.gap_m)) {
      open = false;
      continue;
    }
    if (!open) pieces.push_back({{}, "", {medium_mm, LineType::continuous, Layer::envelope}});
    open = true;
    pieces.back().values.push_back({one.travel_m, one.gap_m});
    low = std::min(low, one.gap_m);
    high = std::max(high, one.gap_m);
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
    if (!limit || known < 2) continue;
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

#include <fmt/format.h>

#include <algorithm>

#include "report/tables/corner_columns.hpp"
#include "report/tables/parts.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::tables {
namespace {

using arrest::Approach;
using arrest::Approaches;

/// Of those corners that differ in the brake alone, the first: it makes no difference before contact.
std::vector<std::size_t> arriving(const Approaches& approaches) {
  std::vector<std::size_t> corners;
  std::vector<arrest::Corner> seen;
  for (std::size_t i = 0; i < approaches.corners.size(); ++i) {
    arrest::Corner corner = approaches.corners[i];
    corner.strong_brake = false;
    if (!seen.empty() && seen.back() == corner) continue;
    seen.push_back(corner);
    corners.push_back(i);
  }
  return corners;
}

std::string stalls(const Rig& rig, const Approach& approach, const Style& style) {
  if (!approach.stalled_at_m) return "";
  const auto chainage = [&](double along_m) { return words::travel(chainage_of_along_m(rig, along_m), style); };
  std::string text = "stalls at chainage " + chainage(*approach.stalled_at_m);
  if (approach.hangs_at_m) return text + ", hangs at " + chainage(*approach.hangs_at_m) + " in the end";
  if (approach.back_at_start_m_per_s)
    return text + ", rolls back over the start at " +
           words::shown(*approach.back_at_start_m_per_s, Dimension::speed, style);
  return text + ", swings to and fro";
}

std::string measured(const mainline::Span& span, const Style& style) {
  return words::shown(span.low, Dimension::speed, style) + " to " + words::shown(span.high, Dimension::speed, style);
}

}  // namespace

Table arrivals(const Dossier& dossier, const Style& style) {
  const Rig& rig = dossier.judged.rig;
  Table table{"Arrivals: predicted, untested", {}, {}, {}};
  const Approaches* approaches = rig.approach.solved();
  if (!approaches) return undetermined(std::move(table), rig.approach.result->error());
  const arrest::Inputs& in = *rig.approach.inputs;
  if (!in.start_m) {
    table.notes = {"No [approach] is given: riders are taken to arrive as measured, at " +
                   measured(*in.measured_speed_m_per_s, style) + "."};
    return table;
  }
  const std::vector<std::size_t> shown = arriving(*approaches);
  const bool all_arrive = std::all_of(approaches->computed.begin(), approaches->computed.end(),
                                      [](const auto& computed) { return computed && !computed->stalled_at_m; });
  std::vector<arrest::Corner> corners;
  for (const std::size_t i : shown) {
    corners.push_back(approaches->corners[i]);
    corners.back().strong_brake = false;
  }
  const CornerColumns columns = corner_columns(rig, corners);
  table.headings = columns.headings;
  table.headings.insert(table.headings.end(), {"computed", "measured", "after", "fastest on the way", "v/c"});
  if (!all_arrive) table.headings.emplace_back("where he stalls");
  for (std::size_t row = 0; row < shown.size(); ++row) {
    const auto& computed = approaches->computed[shown[row]];
    std::vector<Cell> cells = columns.cells[row];
    const Cell measured_cell =
        in.measured_speed_m_per_s ? cell(approaches->speed_m_per_s[shown[row]], Dimension::speed) : Cell{};
    if (computed) {
      cells.insert(
          cells.end(),
          {computed->stalled_at_m ? Cell{} : cell(computed->arrival_speed_m_per_s, Dimension::speed), measured_cell,
           cell(computed->time_s, Dimension::time), cell(computed->greatest_speed_m_per_s, Dimension::speed),
           cell(computed->speed_over_wave, Dimension::ratio)});
    } else {
      cells.insert(cells.end(), {Cell{}, measured_cell, Cell{}, Cell{}, Cell{}});
    }
    if (!all_arrive) cells.emplace_back(computed ? stalls(rig, *computed, style) : "unsolved: " + computed.error().why);
    table.rows.push_back(std::move(cells));
  }
  table.notes = {fmt::format(
      "Speed: of the push-off where it is computed. {}After: from the push-off to the brake trolley, or to where he "
      "stalls. v/c: greatest speed over that of a wave along the main line; above {} the model does not hold.",
      in.measured_speed_m_per_s ? "A measured speed wins, the computed one stands beside it. " : "",
      arrest::greatest_speed_over_wave)};
  return table;
}

}  // namespace fairlead::tables

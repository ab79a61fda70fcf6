// The way back of the empty brake trolley.
#include <algorithm>

#include "geometry/checks/corners.hpp"
#include "report/sheets/arrest_plots.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr LineType types[] = {LineType::continuous, LineType::dashed, LineType::dash_dot,
                              LineType::long_dash_short_dash, LineType::dash_double_dot};

bool applies(const Dossier& dossier) {
  return dossier.arrest && dossier.judged.rig.arrest.solved() && !dossier.judged.rig.arrest.solved()->resets.empty();
}

void draw_reserve(const Canvas& canvas, const Box& box, const Rig& rig, const Style& style) {
  constexpr double names_mm = 52;
  const auto& resets = rig.arrest.solved()->resets;
  std::vector<PlotLimit> limits{{"0: it stays where it is", 0}};
  if (const auto& limit = rig.layout.limits.reset_reserve_N)
    limits.push_back({"limit " + words::shown(limit->at, Dimension::force, style), limit->at});
  double low = 0, high = 0;
  for (const PlotLimit& limit : limits) high = std::max(high, limit.value);
  std::vector<PlotCurve> curves;
  for (const arrest::Reset& reset : resets) {
    PlotCurve curve{
        {}, weather_of(rig, reset), {medium_mm, types[curves.size() % std::size(types)], Layer::braking_line}};
    for (std::size_t i = 0; i < reset.travel_m.size(); ++i) {
      curve.values.push_back({reset.travel_m[i], reset.reserve_N[i]});
      low = std::min(low, reset.reserve_N[i]);
      high = std::max(high, reset.reserve_N[i]);
    }
    curves.push_back(std::move(curve));
  }
  const double about = 0.05 * (high - low);
  predicted_plot(canvas, box,
                 axis_of("travel of the brake trolley", Dimension::length, 0, rig.layout.brake_trolley.travel_m, style),
                 axis_of("reserve toward the mark", Dimension::force, low - about, high + about, style), curves, limits,
                 names_mm);
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  Body body{"Arrest: way back", "Diagram", "none", {}};
  const Canvas canvas(body.drawing, office.font);
  Box above = under_title(canvas, pages.above_title_block(), "RESERVE ALONG THE ARREST ZONE"),
      beside = pages.columns().back();
  const Table resets = tables::resets(dossier, style);
  const Block notes = block_of(Paragraphs(
      "NOTES",
      {{"–",
        "Reserve: pull of the line and slope toward the mark, less rolling resistance at its greatest and the "
        "trolley's static resistance; the lines return against the friction of their sheaves.",
        Layer::notes},
       {"–",
        "The trolley comes back where the reserve stays above 0 on the whole way: coasting through does not count.",
        Layer::notes}},
      {small_cap_mm}));
  constexpr double least_plot_mm = 100;
  pages.make_room(above, beside, {block_of(resets, style), notes}, least_plot_mm);
  draw_reserve(canvas, above, dossier.judged.rig, style);
  pages.begin(std::move(body), {beside});
  pages.put(resets, style);
  pages.put(notes);
}

}  // namespace

const SheetKind arrest_reset_sheet{"arrest-reset", applies, compose};

}  // namespace fairlead::sheets

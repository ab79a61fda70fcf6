// A general arrangement too long for one sheet at a scale that can be read.
#pragma once

#include <optional>
#include <span>

#include "report/sheets/sheet.hpp"
#include "report/views/scene.hpp"

namespace fairlead::sheets {

/// Whether views at 1:scale can be read, and need not be broken: a rider, about two metres from the line to the feet,
/// is drawn no lower than the letters of a note are. Of ISO 5455's series 1:500 is the coarsest.
constexpr bool legible(double scale) {
  constexpr double rider_m = 2;
  return 1000 / scale * rider_m >= drawing::note_cap_mm;
}
static_assert(legible(500) && !legible(1000));

/// The views in parts, a part a sheet, and the scene they are parts of.
struct InParts {
  std::vector<Body> sheets;
  views::Scene scene;
};

/// The views broken at match lines, in as few parts as have room: at the office's scale, else at the coarsest legible
/// one of `scales`, which are greatest first, or where names find no room at that at the next. Each sheet has a sketch
/// that shows which part it is, the legend and the key of its balloons; the one that shows all of the redirect and the
/// rest mark has their detail. Far ends of members are shown as far as no more parts are needed for them. None where
/// the views find no room in parts either. `corner`: what the title block takes; `first_sheet`: the number of the
/// first part's sheet.
std::optional<InParts> arrangement_in_parts(const Style&, const Office&, const drawing::Box& corner, const Rig&,
                                            std::span<const double> scales, std::size_t first_sheet);

}  // namespace fairlead::sheets

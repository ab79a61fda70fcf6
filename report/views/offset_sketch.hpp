// Where a mark stands from the main line, as bold sketches that are not to scale.
#pragma once

#include "geometry/studies/line_offsets.hpp"
#include "report/dossier.hpp"
#include "report/drawing/place.hpp"

namespace fairlead::views {

struct SketchedMark {
  std::string id;
  LineOffset offset;
};

/// What lies higher, farther left or farther upstream is drawn so, in even steps whatever the distance. The first mark
/// has its offsets written to it, the others their ids. At least one.
/// Looking toward the landing: the main line end on.
void draw_section_sketch(const drawing::Canvas&, const drawing::Box&, const std::vector<SketchedMark>&, const Style&);
/// From the right-hand side: the rider runs to the right. `falls`: the main line sinks toward the landing.
void draw_side_sketch(const drawing::Canvas&, const drawing::Box&, const std::vector<SketchedMark>&, bool falls,
                      const Style&);

/// A support of the main line, or a mark on it, and what is written of it.
struct MarkOnLine {
  std::string id, words;
};
/// The main line from support to support with its marks between, in their order and even steps; at least both supports.
void draw_main_line_sketch(const drawing::Canvas&, const drawing::Box&, const std::vector<MarkOnLine>&);

}  // namespace fairlead::views

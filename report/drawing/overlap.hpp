// Where lettering and lines stand in each other's way.
#pragma once

#include <array>
#include <string>

#include "report/drawing/canvas.hpp"

namespace fairlead::drawing {

/// A rectangle at any angle, corners in turn.
using Quad = std::array<Paper, 4>;

/// What a label covers: from its baseline to its cap height over its advance width, `margin_mm` wider on every side.
Quad text_quad(const Label&, const Font&, double margin_mm = 0);
Quad quad(const Box&);
Box bounds(const Quad&);
Box bounds(const std::vector<Paper>&);
Box bounds(Paper, Paper);
/// Of every stroke and every label; an empty drawing has none and gives an empty box.
Box bounds(const Drawing&, const Font&);

/// True where they share more than an edge.
bool overlap(const Quad&, const Quad&);
bool crosses(const Quad&, Paper from, Paper to);
/// True where two segments cross or touch.
bool meet(Paper a, Paper b, Paper c, Paper d);

/// Everything wrong with a drawing's lettering, one line each: pairs of labels that overlap, labels and strokes that
/// leave the frame, labels a line runs through. Pale ones lie
/// behind everything, so for them only leaving the frame counts. Empty is what a sheet must be.
std::vector<std::string> faults(const Drawing&, const Font&, const Box& frame);

}  // namespace fairlead::drawing

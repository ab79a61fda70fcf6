// Sheets as one DXF file of release R2000 (AC1015), to be taken up by a CAD program.
#pragma once

#include "report/formats/document.hpp"

namespace fairlead::formats {

/// The whole file: millimetres of paper in model space, several sheets side by side, a named view a sheet. Strokes are
/// polylines on the layers of the drawing with their line weights and line types, areas are solid hatches, text is text
/// fitted to its width. Colours are indices, since the release has no others. Lines end in CRLF; what is not ASCII
/// stands as \U+XXXX. Same input, same bytes. Refused: what `characters` refuses.
tl::expected<std::string, Refusal> dxf(const std::vector<drawing::Sheet>&, const drawing::Font&, const DocumentInfo&);

}  // namespace fairlead::formats

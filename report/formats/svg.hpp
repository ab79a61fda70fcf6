// Sheets as SVG, to be looked at in a browser and taken up by a drawing program.
#pragma once

#include "report/formats/document.hpp"

namespace fairlead::formats {

/// One file, millimetres as its unit, at its true size; several sheets stand one below the other. What lies on one
/// layer stands in groups of the layer's name as their class, as many as the order of drawing asks for. Text stays
/// text, in the font's family, at its cap height, and held to its width where a reader has another font. Same input,
/// same bytes. Refused: what `characters` refuses.
tl::expected<std::string, Refusal> svg(const std::vector<drawing::Sheet>&, const drawing::Font&, const DocumentInfo&);

}  // namespace fairlead::formats

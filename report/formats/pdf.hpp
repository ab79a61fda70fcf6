// Sheets as one PDF file, through libharu.
#pragma once

#include "report/formats/document.hpp"

namespace fairlead::formats {

/// The whole file in memory: one page a sheet, millimetres as its unit, one bookmark a sheet, its links, one
/// optional-content group a layer, the font's used glyphs embedded, printed at its true size. Same input, same bytes.
/// Refused: what `characters` refuses, a page libharu cannot hold.
tl::expected<std::string, Refusal> pdf(const std::vector<drawing::Sheet>&, const drawing::Font&, const DocumentInfo&);

}  // namespace fairlead::formats

// Sheets as one PDF file, through libharu.
#pragma once

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "geometry/layout/given.hpp"
#include "report/drawing/drawing.hpp"
#include "report/drawing/font.hpp"

namespace fairlead::formats {

/// What a document says of itself. No clock is read: without a date it states none.
struct DocumentInfo {
  std::string title, author, subject, keywords;
  std::string program;  ///< "fairlead 0.1.0"
  std::optional<Date> date;
};

struct PdfError {
  std::string message;
};

/// The whole file in memory: one page a sheet, millimetres as its unit, one bookmark a sheet, one optional-content
/// group a layer, the font's used glyphs embedded, printed at its true size. Same input, same bytes.
/// Refused: a number that is not finite, a character the font lacks (it is named), a page libharu cannot hold.
tl::expected<std::string, PdfError> pdf(const std::vector<drawing::Sheet>&, const drawing::Font&, const DocumentInfo&);

/// Writes a file whole or not at all: under a temporary name in the same folder, then renamed.
/// A failure leaves what was there before and names the path and the system's reason.
tl::expected<void, PdfError> write_whole(const std::string& path, const std::string& bytes);

}  // namespace fairlead::formats

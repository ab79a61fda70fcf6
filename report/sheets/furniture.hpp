// What stands on every sheet: frame, reference border, title block, revision table. Laid out after ISO 5457 and 7200.
#pragma once

#include "geometry/layout/layout.hpp"
#include "report/sheets/sheet.hpp"

namespace fairlead::sheets {

/// Trimming and centring marks, reference border with its zones, frame line. `foot_taken`: what stands at the foot of
/// the sheet has no room for the inner half of the mark there.
void draw_frame(const drawing::Canvas&, const Stationery&, bool foot_taken = false);

/// The sheets of a set, numbered, with frame and title block.
std::vector<drawing::Sheet> finished(std::vector<Body>, const Office&, const Layout&);

/// What the index of a set begins with, among the notes of its first sheet.
inline constexpr std::string_view index_beginning = "Sheets of this set, in order: this one";
/// The same, and ": " and the first sheet's title, where the index stands on another.
inline constexpr std::string_view index_elsewhere_beginning = "Sheets of this set, in order";

/// One sheet's own entries in the title block.
struct SheetEntries {
  std::string_view title, document_type;
  std::string scale;
  int number{}, count{};
};

/// The corner that title block and revision table take; a sheet draws outside it.
drawing::Box title_corner(const Stationery&, const Layout&);

/// Draws both. Without a named approver the sheet says that it is not for construction.
void draw_title_block(const drawing::Canvas&, const Stationery&, const Layout&, const SheetEntries&);

/// What upright pages have in place of both: a strip across the foot of the page, lettered to be read at arm's length.
drawing::Box title_strip(const Stationery&);
void draw_title_strip(const drawing::Canvas&, const Stationery&, const Layout&, const SheetEntries&);

}  // namespace fairlead::sheets

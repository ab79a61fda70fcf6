// Tables that are filled in by hand: rows a pen has room in.
#pragma once

#include "report/sheets/blocks.hpp"
#include "report/tables/table.hpp"

namespace fairlead::sheets {

/// Columns without an entry in any row are left to the pen and share what the others leave; texts wrap. A table that
/// is taller than most_mm at that width comes in several blocks, its title and headings over each.
std::vector<Block> fill_in_blocks(const Table&, const Style&, const drawing::Font&, double width_mm, double most_mm);

/// The same for a table with more columns than a width holds without wrapping: in as many parts of its columns as that
/// takes, the first column in each.
std::vector<Block> fill_in_parts(const Table&, const Style&, const drawing::Font&, double width_mm);

}  // namespace fairlead::sheets

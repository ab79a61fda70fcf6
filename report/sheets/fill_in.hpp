// Tables that are filled in by hand: rows a pen has room in.
#pragma once

#include "report/sheets/blocks.hpp"
#include "report/tables/table.hpp"

namespace fairlead::sheets {

/// Columns without an entry in any row are left to the pen and share what the others leave; texts wrap. A table that
/// is taller than most_mm at that width comes in several blocks, its title and headings over each.
std::vector<Block> fill_in_blocks(const Table&, const Style&, const drawing::Font&, double width_mm, double most_mm);

}  // namespace fairlead::sheets

// Tables and paragraphs wherever a sheet leaves room for them, and on further sheets where it leaves none.
#pragma once

#include "report/sheets/blocks.hpp"
#include "report/sheets/rows.hpp"
#include "report/tables/table.hpp"

namespace fairlead::sheets {

/// A table as a block, its notes beneath. Texts wrap where it is wider than its place.
Block block_of(const Table&, const Style&);

/// These columns of a table as one of its parts: said so in its title, notes beneath the last.
tables::Shown of_columns(const tables::Shown&, const std::vector<std::size_t>& columns, std::size_t part,
                         std::size_t parts);

/// Puts blocks into free rectangles of sheets in their order; a block no rectangle of the sheet has room for begins a
/// further sheet of the same title. What is too wide for any sheet is parted where it can be, and what then is too
/// large is left out and said to be.
class Pages {
 public:
  Pages(const Dossier&, const Office&, std::vector<Body>& out);

  /// Begins a sheet that shows something; `free` is what it leaves for blocks.
  void begin(Body, std::vector<drawing::Box> free);
  void put(const Block&);
  /// A table too tall for any sheet goes on in another one.
  void put(const Table&, const Style&);

  const Stationery& paper() const { return paper_; }
  drawing::Box field() const { return paper_.field(); }
  drawing::Box corner() const { return corner_; }
  /// All of the sheet's width above the title block.
  drawing::Box above_title_block() const;
  /// Columns above the title block, and what lies beside it. On an upright sheet one column, and nothing beside.
  std::vector<drawing::Box> columns(int abreast = 2) const;
  /// All that lies left of the title block, and what lies right of that above it; on an upright sheet the title block
  /// leaves what is above it, and nothing to the right.
  drawing::Box left_column() const;
  drawing::Box right_column() const;
  bool upright() const;
  /// What stands above gives of its height what these blocks want of the place beside the title block, where it keeps
  /// `least_mm` of it. On an upright sheet nothing, for they stand on a further one.
  void make_room(drawing::Box& above, drawing::Box& beside, const std::vector<Block>&, double least_mm) const;
  /// Says on the sheet in hand that something finds no room on this paper, and at which sizes it does.
  void leave_out(const std::string& name, const std::vector<std::string_view>& sizes);

 private:
  /// In the first box that has room for it of those from `first` on, else on a further sheet.
  void put_behind(std::size_t first, const Block&);
  bool fits(const Block&, const drawing::Box&) const;
  /// Whether a further sheet has room for it.
  bool fits_further(const Block&) const;
  /// Broken into more lines than in one of two columns, but for headings.
  bool is_squeezed(const Block&, const drawing::Box&) const;
  void put_rows(const Table&, const tables::Shown& whole, bool in_any_order);
  void leave_out(const Block&);
  void draw(const Block&, std::size_t sheet, drawing::Box&);
  void begin_further(std::vector<drawing::Box>);
  /// What a further sheet leaves for a block: two columns above the title block where it fits one and they hold more of
  /// it, else the whole width; and what lies beside the title block.
  std::vector<drawing::Box> further_boxes(const Block&) const;
  /// The same for the rows of a table from `from` on, in up to four columns where fewer do not hold them all.
  std::vector<drawing::Box> further_boxes(const Table&, const tables::Shown& whole, std::size_t from) const;
  std::vector<RowsInBox> rows_in(const std::vector<drawing::Box>&, const Table&, const tables::Shown& whole,
                                 std::size_t from) const;
  /// A whole table where an earlier one of these sheets left room for it; false where none did.
  bool put_earlier(const Block&);
  /// Whether a table that goes on behind this sheet had better begin there: it stands there whole, where else hardly
  /// any of it would and little else.
  bool stands_behind(const Table&, const tables::Shown& whole, const std::vector<RowsInBox>& here) const;

  struct Left {
    std::size_t sheet{};
    drawing::Box box;
  };
  const Office& office_;
  const Layout& layout_;
  std::vector<Body>& out_;
  Stationery paper_;
  drawing::Box corner_;
  std::vector<drawing::Box> free_;
  std::vector<Left> earlier_;  ///< what the sheets before this one left free, back to the one that shows something
  bool fresh_ = false;         ///< nothing was put on the further sheet yet
};

}  // namespace fairlead::sheets

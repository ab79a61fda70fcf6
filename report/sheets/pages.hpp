// Tables and paragraphs wherever a sheet leaves room for them, and on further sheets where it leaves none.
#pragma once

#include "report/sheets/blocks.hpp"
#include "report/tables/table.hpp"

namespace fairlead::sheets {

/// A table as a block, its notes beneath. Texts wrap where it is wider than its place.
Block block_of(const Table&, const Style&);

/// Puts blocks into free rectangles of sheets in their order; a block no rectangle of the sheet has room for begins a
/// further sheet of the same title.
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
  /// Two columns above the title block, and what lies beside it.
  std::vector<drawing::Box> columns() const;

 private:
  /// In the first box that has room for it of those from `first` on, else on a further sheet; which it was.
  std::size_t put_behind(std::size_t first, const Block&);
  bool fits(const Block&, const drawing::Box&) const;
  /// A further sheet with room for a block: two columns above the title block where it fits one and they hold more of
  /// it, else the whole width; and what lies beside the title block.
  void further(const Block&);
  const Office& office_;
  std::vector<Body>& out_;
  Stationery paper_;
  drawing::Box corner_;
  std::vector<drawing::Box> free_;
  bool fresh_ = false;  ///< nothing was put on the further sheet yet
};

}  // namespace fairlead::sheets

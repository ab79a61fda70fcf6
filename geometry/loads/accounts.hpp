// The rows of all cases, the worst of each column, and the case it stands in. Only loads includes it.
#pragma once

#include <optional>
#include <vector>

#include "geometry/loads/arrest_poses.hpp"
#include "geometry/loads/books.hpp"
#include "geometry/loads/standing.hpp"

namespace fairlead::loads {

/// Everything that is asked for its worst, in one row of numbers per pose: forces as they are, tensions and the like in
/// x.
struct Columns {
  explicit Columns(const Inputs& in, const reeving::Inputs& reeving)
      : sheaves(in.anchors.size()),
        lines(sheaves + reeving.sheaves.size()),
        blocks(lines + 3 * reeving.lines.size()),
        main_line(blocks + 2 * reeving.blocks.size()),
        beside(main_line + 2),
        count(beside + in.beside.size()) {}

  std::size_t sheaves, lines, blocks, main_line, beside, count;  ///< where each begins; anchors at 0
};

class Accounts {
 public:
  Accounts(const Inputs& in, const mainline::MainLine& main_line, const reeving::Inputs& reeving_in,
           const reeving::Reeving& reeved)
      : in_(in),
        main_line_(main_line),
        reeving_in_(reeving_in),
        reeved_(reeved),
        books_(in, main_line, reeving_in, reeved),
        rig_{in, books_, main_line, reeving_in, reeved},
        columns_(in, reeving_in),
        standing_(in, reeving_in),
        worst_(columns_.count) {}

  Solved<Loads> solve(const Work&);

 private:
  void walk(int sweep, Slip);
  /// Row `row` of a table of so many, from one pose of a sweep.
  void write_row(const Account&, const reeving::Sweep&, std::size_t pose, std::size_t row, std::size_t rows);
  void note_spread(int sweep);
  void note(const Balance&);
  void note(const Account&);
  void note_lengths(const Account&, const reeving::Pose&, const Account& at_rest, const reeving::Pose& rest);
  tl::expected<void, Unsolved> walk_singles();
  void take_single(const Single&, CaseKey);
  tl::expected<void, Unsolved> walk_rescue(int sweep, Slip);
  void walk_arrest(const Work&);
  CaseKey arrest_key(std::size_t instant, Slip) const;
  void find_gaps(std::size_t instant, std::vector<double>& gaps) const;
  void list_arrest();
  LoadCase case_at(const CaseKey&) const;
  void take(std::size_t column, Extreme, CaseKey);
  void list_keys();
  Extreme extreme(std::size_t column) const;
  void fill();
  tl::expected<void, Unsolved> closed() const;

  const Inputs& in_;
  const mainline::MainLine& main_line_;
  const reeving::Inputs& reeving_in_;
  const reeving::Reeving& reeved_;
  Books books_;
  Rigged rig_;
  Columns columns_;
  Standing standing_;
  struct Worst {
    double value = -1, bound = 0;
    CaseKey at;
  };
  std::vector<Worst> worst_;  // per column
  std::vector<Single> singles_;
  std::optional<ArrestPoses> arrest_;
  /// Per path of the main line: by how much it changes over a cell of travel at the peak tension, cell by cell, of each
  /// the columns.
  std::vector<std::vector<double>> spread_;
  std::vector<CaseKey> keys_;  // of the cases, in their order
  std::vector<Vec3> table_;    // of one sweep: column after column
  std::vector<double> travel_m_;
  std::vector<bool> known_;
  Loads loads_;
};

}  // namespace fairlead::loads

// What several tables are made with.
#pragma once

#include <string>
#include <vector>

#include "report/tables/tables.hpp"

namespace fairlead::tables {

/// The table without rows, and why.
Table undetermined(Table, const Unsolved&);

/// A, B, ... Z, A1, B1, ...: what stands in a cell for what a note tells.
std::string letter(std::ptrdiff_t);

/// "(0.6000, -0.8000, 0.0000)"
std::string direction_of(Vec3);

/// What the checks of strength found of a part; null where none looked at it.
const Finding* strength_of(const Dossier&, Item);
/// Empty where it was not measured.
Cell utilisation_of(const Dossier&, Item);
/// The finding's fact of that name; empty where it has none.
Cell fact_of(const Finding*, std::string_view name);

/// Whether what its members carry is all that is judged of an anchor: it is given no strength of its own.
bool rated_by_members(const Layout&, std::size_t anchor);
/// Of the findings of its members' utilisation the worst, of equally bad ones the greatest; null where there is none.
const Finding* worst_member(const Dossier&, std::size_t anchor);

/// What is told by letters, A, B, ... Z, A1, B1, ... in the order it is asked for; a table's notes say which is which.
class Letters {
 public:
  std::string of(const std::string& told);
  void explain(Table&) const;

 private:
  std::vector<std::string> told_;
};

/// "17": the number of a load case in the table of them.
inline std::string case_number(std::size_t load_case) { return std::to_string(load_case + 1); }

/// Load cases by letters. Two of one name at one travel are one to a reader.
class CaseLetters {
 public:
  CaseLetters(const loads::Loads& loads, const Style& style) : loads_(loads), style_(style) {}

  /// "none" where there is no case.
  std::string of(int load_case);
  void explain(Table& table) const { letters_.explain(table); }

 private:
  const loads::Loads& loads_;
  const Style& style_;
  Letters letters_;
};

}  // namespace fairlead::tables

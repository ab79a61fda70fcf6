// What sheaves and terminations leave of the breaking strength of lines.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/layout/layout.hpp"

namespace fairlead {

/// D/d: diameter at the bottom of the groove over the line's.
double tread_ratio(const Sheave&, const Line&);

/// Share of its breaking strength that a steel line holds over a sheave of this tread_ratio. Linear
/// between the rows of the table, above its last row as there; nullopt below its first, and for NaN. Source: published
/// rigging tables, read. Not for fibre and webbing.
std::optional<double> held_over_sheave(double ratio);

/// The sheave over which a line bends most.
struct Tightest {
  SheaveId sheave{};
  double ratio{};                ///< D/d
  std::optional<double> held{};  ///< as the line's sheave_strength says, or else of steel the table; else not known
};
/// nullopt: it runs over no sheave.
std::optional<Tightest> tightest_sheave(const Layout&, const Line&);

/// Says of every line and cable with a breaking strength which losses are taken from tables, and which are not counted.
void note_strength_left(const Layout&, std::vector<std::string>& assumptions);

}  // namespace fairlead

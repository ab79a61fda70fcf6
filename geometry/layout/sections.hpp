// From the tree of the file to a Layout, walking the tables of the sections.
#pragma once

#include <set>
#include <string>

#include "geometry/layout/concept.hpp"
#include "geometry/layout/ids.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/layout/node.hpp"
#include "geometry/layout/points_table.hpp"

namespace fairlead {

using Unsound = std::set<std::string, std::less<>>;

/// Reads every section, and the points file before the first place. Returns the names of those sections that hold an
/// error, or a point of an unsound points file; what lies across several is judged only between sound ones.
Unsound read_sections(const Node& root, const Ids&, PointsTable&, Layout&, Errors&);
Unsound read_sections(const Node& root, const Ids&, PointsTable&, Concept&, Errors&);

/// Errors between values: across keys, items and sections. Fills in what follows from elsewhere (a sheave's pitch
/// diameter from its tread and its line).
void check_consistency(Layout&, const Unsound& unsound, Errors&);
/// The same of a concept: its slope follows from an angle.
void check_consistency(Concept&, const Unsound& unsound, Errors&);

/// Its parts for travelling blocks, where anchors, sheaves, lines, blocks, connectors and support lines are sound.
/// check_blocks fills in the bearing of each connector; where it finds no error, close_lines what closes each line.
void check_blocks(Layout&, Errors&);
void close_lines(Layout&, Errors&);

/// Its part for how lines and cables end.
void check_terminations(const Layout&, const Unsound& unsound, Errors&);

/// Its part for who arrives and what stops them.
void check_arrest(const Layout&, const Unsound& unsound, Errors&);

/// Its part for anchors and the members that hold them, where the members are sound. `anchors`: these are too.
void check_members(const Layout&, bool anchors, Errors&);

}  // namespace fairlead

// The row of the revision table that a change deserves.
#pragma once

#include <string>
#include <vector>

#include "report/changes.hpp"

namespace fairlead::words {

struct RevisionLine {
  std::string revision, change;         ///< of the new file; what changed, the weightiest first
  std::optional<std::string> by, date;  ///< its creator and date of issue; nothing where it gives none
};

/// Points that moved, parts that came or went, limits loosened, values, other limits, keys given or no longer given;
/// beyond six only how many more there are.
RevisionLine revision_line(const Changes&, const Style&);

/// As a [[project.history]] table to paste. What is not known is not there: the reader will ask for it.
std::string toml(const RevisionLine&);

/// What an inspector would ask first: a revision or date that stayed though inputs changed, a line not yet known, two
/// numbers that are no two revisions of one drawing. Whole sentences.
std::vector<std::string> revision_warnings(const Changes&);

/// Whether any input but the project's own section differs.
bool inputs_differ(const Changes&);

}  // namespace fairlead::words

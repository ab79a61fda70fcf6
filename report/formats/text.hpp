// What the terminal shows: plain text, at most 100 columns, no colour.
#pragma once

#include <string>

#include "report/dossier.hpp"
#include "report/tables/table.hpp"

namespace fairlead {
struct AsBuilt;
struct Changes;
}  // namespace fairlead

namespace fairlead::text {

/// The whole output of `fairlead check`: the verdict in its first line, then the findings, worst first, waivers, the
/// main tables, what was taken for granted, what was not looked at, and the cautions.
std::string write(const Dossier&, const Style&);

/// The whole output of `fairlead compare`: what moved and what that does first, then loads, limits, the other inputs,
/// and a row for the revision table.
std::string write(const Changes&, const Style&);

/// The whole output of `fairlead asbuilt`: the verdict of the rig as it was measured first, then how far the marks are
/// off, what was not measured, the findings, and how they fared over the draws.
std::string write(const AsBuilt&, const Style&);

/// The whole output of `fairlead setout`: the same verdict first, then what the rig is set out by, what was taken for
/// granted, and the cautions. The dossier has its setting out.
std::string write_setting_out(const Dossier&, const Style&);

/// The whole output of `fairlead arrest`: the same verdict first, then the findings of how riders stop and of the way
/// back, and every table of the arrest.
std::string write_arrest(const Dossier&, const Style&);

/// The whole output of `fairlead trial`: the layout's verdict first, then, with results, the trial's and every number
/// against what was predicted; how the tests are made, the plan, what is accepted, and when to stop. The dossier has
/// its trial.
std::string write_trial(const Dossier&, const Style&);

/// What write_arrest writes, of a concept, with what a first estimate leaves out before everything else.
std::string write_concept(const Dossier&, const Style&);

/// One table with its title and notes. Columns of words are narrowed and wrapped where the page is not wide enough.
std::string write(const Table&, const Style&);

/// The same of a table that is too wide for a page: beside one another only as many columns as fit with their words
/// unbroken, the rest below, every part led by the first column.
std::string write_in_parts(const Table&, const Style&);

}  // namespace fairlead::text

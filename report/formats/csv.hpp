// Tables as CSV (RFC4180), to be read by a spreadsheet.
#pragma once

#include "report/dossier.hpp"
#include "report/formats/files.hpp"
#include "report/tables/table.hpp"

namespace fairlead::formats {

/// One table: a header, then its rows, each as long as the header and whole by itself: what a row says by an empty
/// beginning, that it goes on with the one before, is written out. Numbers are SI, to the digits that JSON has, and
/// their unit stands in the header behind the heading; a column of several units is followed by one that names them.
/// A number that is not known reads "unknown", never empty. No two headings are the same. Lines end in CRLF.
std::string csv(const Table&);

/// Every table that has rows as a file of its own, and one, tables.csv, that says what is in which, whose it is, and
/// what stands beneath each table: signs, frames, and why a table is missing.
std::vector<File> csv_files(const Dossier&, const Style&);

}  // namespace fairlead::formats

// Known answers beside ours: the table of tests/ACCURACY.md, and a test for each of its rows.
#pragma once

#include <string>
#include <vector>

namespace fairlead::accuracy {

/// One known answer. `expected` is as its source prints it, and half of its last digit is all that ours may be off.
struct Row {
  std::string part;      ///< the folder it checks: "mainline"
  std::string quantity;  ///< what, in which case; no two alike
  std::string source;    ///< key in tests/SOURCES.md, and its state: "SSNL114, read"
  std::string expected;  ///< "6.352"
  std::string unit;      ///< SI unless the source has another
  double ours{};         ///< in that unit; NaN when unsolved
};

double expected_value(const Row&);
double tolerance(const Row&);
/// NaN is never met.
bool met(const Row&);

/// The rows as a Markdown document.
std::string document(const std::vector<Row>&);

// One file of rows a part; each is called in all_rows.
std::vector<Row> mainline_rows();
std::vector<Row> reeving_rows();
std::vector<Row> friction_rows();
std::vector<Row> approach_rows();
std::vector<Row> motion_rows();
std::vector<Row> rig_rows();

std::vector<Row> all_rows();

}  // namespace fairlead::accuracy

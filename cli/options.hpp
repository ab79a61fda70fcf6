// What the commands share: the layout they read and how they read it.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "geometry/checks/check.hpp"
#include "geometry/layout/read.hpp"
#include "report/dossier.hpp"

namespace fairlead::cli {

/// Exit statuses; the same for every command.
enum Exit { cleared = 0, not_cleared = 1, unusable = 2, our_fault = 3, interrupted = 130 };

/// Options of every command that judges a layout.
struct JudgeOptions {
  std::string layout;
  std::vector<std::string> set;  ///< KEY=VALUE
  std::string loan, units_file;  ///< serial of the brake unit that stands in, and the file with its data; or empty
  std::string date;              ///< YYYY-MM-DD; empty: not given
  std::string units = "both";
  unsigned threads = 2;
};

/// Thrown where an input cannot be used or an output not written; the message is what the user reads.
struct Unusable {
  std::string message;
};

/// Reads the layout with the options written into it. Throws Unusable with every diagnostic.
Layout read(const JudgeOptions&);
/// Reads a file as what it is, layout or concept.
std::variant<Layout, Concept> read_either(const JudgeOptions&);

/// Throws Unusable where a scan's file was written since it was opened: what was judged is of neither the old one nor
/// the new one.
void refuse_changed_scans(const Layout&);

Style style_of(const JudgeOptions&);

/// Threads as asked for, a stop on Ctrl-C, and progress on a terminal.
Work work_of(const JudgeOptions&);

/// Reads and judges. Throws Unusable, or Cancelled after an interrupt.
Dossier judge(const JudgeOptions&);

/// Writes to standard output; throws Unusable when it cannot.
void print(const std::string& text);

}  // namespace fairlead::cli

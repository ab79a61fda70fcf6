// One file a command: each reads, judges, and writes.
#pragma once

#include "cli/options.hpp"

namespace fairlead::cli {

int check(const JudgeOptions&, const std::string& format);

struct DrawOptions {
  std::string output;  ///< SET.pdf
  std::string size;    ///< "A3" or "ANSI-B"
  std::string font;    ///< empty: the one of fonts-dejavu-extra
  bool windows{};      ///< with the box of all marks; never with single windows, which are no tolerances
};
int draw(const JudgeOptions&, const DrawOptions&);

/// What changed from options.layout to `now`; cleared (0) whatever it is.
int compare(const JudgeOptions&, const std::string& now, const std::string& format);

/// A starting layout to standard output, or to a file that does not exist yet.
int new_layout(const std::string& output);

/// What a check judges, or what a key of the layout means; all checks when the name is empty.
int explain(const std::string& name);

}  // namespace fairlead::cli

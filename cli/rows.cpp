#include "cli/rows.hpp"

namespace fairlead::cli {

std::string printed(const std::string& file, const PointsErrors& errors) {
  std::string message;
  const auto add = [&](Diagnostic diagnostic) {
    diagnostic.file = file;
    message += fairlead::print(diagnostic);
  };
  for (const PointsError& error : errors.first)
    add({.place = {0, error.line, error.column},
         .length = error.length,
         .message = error.message,
         .instead = error.instead,
         .source_line = error.source_line});
  if (errors.more > 0) add({.message = "and " + std::to_string(errors.more) + " more errors"});
  return message;
}

}  // namespace fairlead::cli

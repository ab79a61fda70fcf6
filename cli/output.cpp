#include "cli/output.hpp"

#include "cli/options.hpp"

namespace fairlead::cli {
namespace {

std::string ending_of(std::string_view format) {
  if (format == "/") return "/";
  std::string ending = ".";
  return ending.append(format == "text" ? "txt" : format);
}

/// ".pdf, .csv, .json or .txt"
std::string endings_of(std::initializer_list<std::string_view> formats) {
  std::string text;
  for (const std::string_view& format : formats) {
    if (&format != formats.begin()) text += &format + 1 == formats.end() ? " or " : ", ";
    text += ending_of(format) + (format == "/" ? " (a folder)" : "");
  }
  return text;
}

}  // namespace

std::string format_of(const std::string& format, const std::string& output,
                      std::initializer_list<std::string_view> formats) {
  if (output.empty()) return format.empty() ? "text" : format;
  std::string by_name;
  for (const std::string_view of : formats)
    if (output.ends_with(ending_of(of))) by_name = of;
  if (by_name.empty()) throw Unusable{"error: -o " + output + ": end the file's name in " + endings_of(formats) + "\n"};
  if (!format.empty() && format != by_name)
    throw Unusable{"error: -o " + output + ": --format " + format + " is another format: leave --format out\n"};
  return by_name;
}

}  // namespace fairlead::cli

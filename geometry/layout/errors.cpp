#include "geometry/layout/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/quantity/utf8.hpp"

namespace fairlead {
namespace {

constexpr std::size_t most_errors = 200;      // of one file; who has more has one cause for many
constexpr std::size_t most_columns = 120;     // of a source line that is shown
constexpr std::size_t longest_message = 400;  // columns; it may quote what was written

bool continues(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }

// The text's columns, each as it may be printed: what is no printable UTF-8 is "?".
std::vector<std::string> printable(std::string_view text) {
  std::vector<std::string> columns;
  for (std::size_t i = 0, end = 0; i < text.size(); i = end) {
    end = i + 1;
    while (end < text.size() && end < i + 4 && continues(text[end])) ++end;
    const auto first = static_cast<unsigned char>(text[i]);
    const std::size_t length = first < 0x80 ? 1 : first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 0;
    const bool control = (first < 0x20 && first != '\t') || first == 0x7F ||
                         (first == 0xC2 && end == i + 2 && static_cast<unsigned char>(text[i + 1]) < 0xA0);
    const bool whole = length == end - i && first <= 0xF4;
    columns.push_back(whole && !control ? std::string(text.substr(i, end - i)) : "?");
    if (!whole) end = i + 1;
  }
  return columns;
}

std::string joined(const std::vector<std::string>& columns, std::size_t from, std::size_t to) {
  std::string text;
  for (std::size_t i = from; i < to; ++i) text += columns[i];
  return text;
}

std::string clipped(std::string_view text) {
  // Four bytes are the most a column takes.
  const auto columns = printable(text.substr(0, 4 * longest_message + 4));
  if (columns.size() <= longest_message) return joined(columns, 0, columns.size());
  return joined(columns, 0, longest_message) + "...";
}

}  // namespace

std::string print(const Diagnostic& d) {
  const std::string where = d.place.line > 0 ? fmt::format("{}:{}:{}", d.file, d.place.line, d.place.column) : d.file;
  const std::string head = fmt::format("{}: error: {}", where, d.message);
  if (d.source_line.empty()) return head + (d.instead.empty() ? "\n" : fmt::format("; {}\n", d.instead));

  const auto columns = printable(d.source_line);
  const std::size_t caret = std::min<std::size_t>(d.place.column > 0 ? d.place.column - 1 : 0, columns.size());
  std::size_t from = 0, to = columns.size();
  if (to > most_columns) {
    from = caret < most_columns / 2 ? 0 : caret - most_columns / 2;
    to = std::min(to, from + most_columns);
  }
  const std::string before = from > 0 ? "..." : "", after = to < columns.size() ? "..." : "";
  std::string pad(before.size(), ' ');
  for (std::size_t i = from; i < caret; ++i) pad += columns[i] == "\t" ? "\t" : " ";
  const std::size_t most = to > caret ? to - caret : 1;
  const std::string carets(std::clamp<std::size_t>(d.length, 1, most), '^');
  return fmt::format("{}\n{:>5} |   {}{}{}\n      |   {}{}{}{}\n", head,
                     d.place.line > 0 ? std::to_string(d.place.line) : "", before, joined(columns, from, to), after,
                     pad, carets, d.instead.empty() ? "" : " ", d.instead);
}

Errors::Errors(std::string_view text, std::string name, const std::vector<Override>& overrides)
    : files_{file(std::move(name), text), {"command line", {}, {}}} {
  for (const Override& change : overrides) {
    command_line_ += command_line_.empty() ? "--set " : " --set ";
    const unsigned at = columns_of(command_line_) + 1, value = at + columns_of(change.key) + 1;
    override_columns_.emplace_back(at, value);
    command_line_ += change.key + "=" + change.value;
    measure({command_line_file, 0, at}, columns_of(change.key));
    measure({command_line_file, 0, value}, columns_of(change.value));
  }
}

Errors::File Errors::file(std::string name, std::string_view text) {
  File file{std::move(name), text, {0}};
  for (std::size_t end = text.find('\n'); end != text.npos; end = text.find('\n', end + 1))
    file.line_starts.push_back(end + 1);
  return file;
}

void Errors::add_points_file(std::string name, std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  files_.push_back(file(std::move(name), text));
}

std::string_view Errors::File::line(unsigned number) const {
  if (number == 0 || number > line_starts.size()) return {};
  std::string_view line = text.substr(line_starts[number - 1]);
  line = line.substr(0, line.find('\n'));
  return line.ends_with('\r') ? line.substr(0, line.size() - 1) : line;
}

Place Errors::place_at(std::size_t byte) const {
  const File& file = files_[0];
  const auto next = std::upper_bound(file.line_starts.begin(), file.line_starts.end(), byte);
  const std::size_t start = *(next - 1);
  return {0, static_cast<unsigned>(next - file.line_starts.begin()),
          columns_of(file.text.substr(start, byte - start)) + 1};
}

void Errors::add(Place place, std::string message, std::string instead) {
  const auto known = columns_.find(key(place));
  found_.push_back({.file = files_[place.file].name,
                    .place = place,
                    .length = known == columns_.end() ? 1 : known->second,
                    .message = clipped(message),
                    .instead = clipped(instead)});
}

void Errors::add(const PointsErrors& errors) {
  for (const PointsError& error : errors.first)
    found_.push_back({.file = files_[points_file].name,
                      .place = {points_file, error.line, error.column},
                      .length = error.length,
                      .message = clipped(error.message),
                      .instead = clipped(error.instead),
                      .source_line = error.source_line});
  more_ += errors.more;
}

Diagnostics Errors::sorted() const {
  Diagnostics all = found_;
  std::stable_sort(all.begin(), all.end(),
                   [](const Diagnostic& a, const Diagnostic& b) { return key(a.place) < key(b.place); });
  const std::size_t more = more_ + (all.size() > most_errors ? all.size() - most_errors : 0);
  if (more > 0) {
    all.resize(std::min(all.size(), most_errors));
    all.push_back({.file = files_[0].name, .place = {}, .message = fmt::format("and {} more errors", more)});
  }
  for (Diagnostic& d : all)
    if (d.source_line.empty())
      d.source_line =
          d.place.file == command_line_file ? command_line_ : std::string(files_[d.place.file].line(d.place.line));
  return all;
}

}  // namespace fairlead

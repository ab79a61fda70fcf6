#include "geometry/layout/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

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

unsigned columns_of(std::string_view text) {
  return static_cast<unsigned>(std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
}

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
    : text_(text), line_starts_{0}, name_(std::move(name)) {
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] == '\n') line_starts_.push_back(i + 1);
  for (const Override& change : overrides) {
    command_line_ += command_line_.empty() ? "--set " : " --set ";
    const unsigned at = columns_of(command_line_) + 1, value = at + columns_of(change.key) + 1;
    override_columns_.emplace_back(at, value);
    command_line_ += change.key + "=" + change.value;
    measure({command_line_file, 0, at}, columns_of(change.key));
    measure({command_line_file, 0, value}, columns_of(change.value));
  }
}

std::string_view Errors::line(unsigned number) const {
  if (number == 0 || number > line_starts_.size()) return {};
  std::string_view line = text_.substr(line_starts_[number - 1]);
  line = line.substr(0, line.find('\n'));
  return line.ends_with('\r') ? line.substr(0, line.size() - 1) : line;
}

Place Errors::place_at(std::size_t byte) const {
  const auto next = std::upper_bound(line_starts_.begin(), line_starts_.end(), byte);
  const std::size_t start = *(next - 1);
  return {0, static_cast<unsigned>(next - line_starts_.begin()), columns_of(text_.substr(start, byte - start)) + 1};
}

void Errors::add(Place place, std::string message, std::string instead) {
  const auto known = columns_.find(key(place));
  found_.push_back({.file = place.file == command_line_file ? "command line" : name_,
                    .place = place,
                    .length = known == columns_.end() ? 1 : known->second,
                    .message = clipped(message),
                    .instead = clipped(instead)});
}

Diagnostics Errors::sorted() const {
  Diagnostics all = found_;
  std::stable_sort(all.begin(), all.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tuple(a.place.file, a.place.line, a.place.column) <
           std::tuple(b.place.file, b.place.line, b.place.column);
  });
  if (all.size() > most_errors) {
    const std::size_t more = all.size() - most_errors;
    all.resize(most_errors);
    all.push_back({.file = name_, .place = {}, .message = fmt::format("and {} more errors", more)});
  }
  for (Diagnostic& d : all)
    d.source_line = d.place.file == command_line_file ? command_line_ : std::string(line(d.place.line));
  return all;
}

}  // namespace fairlead

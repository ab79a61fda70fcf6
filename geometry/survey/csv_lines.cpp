#include "geometry/survey/csv_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "geometry/quantity/utf8.hpp"

namespace fairlead {
namespace {

constexpr std::size_t longest_line = std::size_t{64} * 1024;

// The first byte that no line of text holds, if there is one.
std::optional<PointsError> strange_byte(std::string_view text) {
  unsigned line = 1;
  std::size_t line_start = 0;
  for (std::size_t at = 0, length = 0; at < text.size(); at += length) {
    const auto byte = static_cast<unsigned char>(text[at]);
    if (byte >= 0x20 && byte < 0x7F) {  // nearly all
      length = 1;
      continue;
    }
    length = character_length(text, at);
    const bool control = byte < 0x20 || byte == 0x7F;
    if (byte == '\n') {
      ++line;
      line_start = at + 1;
    }
    if ((length > 0 && !control) || byte == '\n' || byte == '\t' || text.substr(at, 2) == "\r\n") continue;
    const std::string_view whole = text.substr(line_start, text.find('\n', line_start) - line_start);
    PointsError error{
        .line = line,
        .column = columns_of(text.substr(line_start, at - line_start)) + 1,
        .message = fmt::format("byte 0x{:02X} is {}", byte, control ? "a control character" : "no UTF-8 text"),
        .instead = control ? "remove it" : "save the file as UTF-8",
        .source_line = std::string(whole.substr(0, longest_line))};
    if (byte == '\r') error.instead = "end lines with a line feed";
    return error;
  }
  return std::nullopt;
}

}  // namespace

tl::expected<std::string_view, PointsErrors> lines_of(std::string_view text) {
  const auto refuse = [](PointsError error) {
    return tl::unexpected<PointsErrors>(PointsErrors{{std::move(error)}, 0});
  };
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))
    return refuse({.message = "the file is UTF-16", .instead = "save it as UTF-8"});
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  if (auto error = strange_byte(text)) return refuse(std::move(*error));
  return text;
}

bool CsvLines::next_line() {
  if (rest_.empty()) return false;
  ++number_;
  const std::size_t end = rest_.find('\n');
  line_ = rest_.substr(0, end);
  rest_ = end == rest_.npos ? std::string_view{} : rest_.substr(end + 1);
  if (line_.ends_with('\r')) line_.remove_suffix(1);
  return true;
}

CsvLines::Row CsvLines::next_row() {
  while (next_line()) {
    const std::size_t begin = line_.find_first_not_of(" \t");
    if (begin == line_.npos || line_[begin] == '#') continue;
    if (line_.size() > longest_line) {
      add({0, 1, fmt::format("the line is longer than {} bytes", longest_line), "a point has a line of its own"});
      return Row::flawed;
    }
    const auto flaw = points_row::split(line_, cells_);
    if (!flaw) return Row::cells;
    add(*flaw);
    return Row::flawed;
  }
  return Row::end;
}

PointsError CsvLines::error_of(points_row::Flaw flaw, unsigned number, std::string_view line) {
  return {.line = number,
          .column = columns_of(line.substr(0, flaw.at)) + 1,
          .length = std::max(1u, columns_of(line.substr(flaw.at, flaw.length))),
          .message = std::move(flaw.message),
          .instead = std::move(flaw.instead),
          .source_line = std::string(line.substr(0, longest_line))};
}

void CsvLines::add(points_row::Flaw flaw) {
  if (errors_.first.size() < most_csv_errors)
    errors_.first.push_back(error_of(std::move(flaw), number_, line_));
  else
    ++errors_.more;
}

void CsvLines::add(const points_row::Cell& cell, std::string message, std::string instead) {
  add({cell.at, cell.length, std::move(message), std::move(instead)});
}

void CsvLines::add_of_file(std::string message, std::string instead) {
  errors_.first.push_back({.message = std::move(message), .instead = std::move(instead)});
}

void CsvLines::add_later(std::vector<PointsError> later, std::size_t more) {
  errors_.more += more;
  for (PointsError& error : later) errors_.first.push_back(std::move(error));
  std::stable_sort(errors_.first.begin(), errors_.first.end(), [](const PointsError& a, const PointsError& b) {
    return std::tuple(a.line, a.column) < std::tuple(b.line, b.column);
  });
  if (errors_.first.size() > most_csv_errors) {
    errors_.more += errors_.first.size() - most_csv_errors;
    errors_.first.resize(most_csv_errors);
  }
}

}  // namespace fairlead

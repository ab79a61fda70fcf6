#include "geometry/records/columns_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "geometry/quantity/nearest.hpp"

namespace fairlead {
namespace {

constexpr std::size_t longest_word = 40;

bool leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int days_of(int year, int month) {
  constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return days[month - 1] + (month == 2 && leap(year) ? 1 : 0);
}

/// Days since the first of January of the year 1.
long day_number(const Date& date) {
  const long before = date.year - 1;
  long days = 365 * before + before / 4 - before / 100 + before / 400;
  for (int month = 1; month < date.month; ++month) days += days_of(date.year, month);
  return days + date.day - 1;
}

}  // namespace

std::optional<Date> read_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t count) {
    int value = 0;
    const char *begin = text.data() + from, *end = begin + count;
    const auto [stop, error] = std::from_chars(begin, end, value);
    return error == std::errc{} && stop == end ? value : 0;
  };
  const Date date{number(0, 4), number(5, 2), number(8, 2)};
  if (!(date.year >= 1 && date.month >= 1 && date.month <= 12)) return std::nullopt;
  if (!(date.day >= 1 && date.day <= days_of(date.year, date.month))) return std::nullopt;
  return date;
}

long days_between(const Date& from, const Date& to) { return day_number(to) - day_number(from); }

bool ColumnsFile::next() {
  while (true) {
    const Row row = next_row();
    if (row == Row::end) return false;
    if (!named_) {
      // What stands in an unnamed column is not judged.
      if (row != Row::cells || !header()) return false;
      named_ = true;
      continue;
    }
    if (row != Row::cells) continue;
    if (cells_.size() != width_) {
      add({0, line_.size(),
           fmt::format("the line has {} column{}, and the header {}", cells_.size(), cells_.size() == 1 ? "" : "s",
                       width_),
           "separate the columns by commas, and leave what is not known empty"});
      continue;
    }
    bool whole = true;
    for (std::size_t c = 0; c < columns_.size(); ++c)
      if (columns_[c].required && !given(c)) {
        wrong(c, fmt::format("the {} has no {}", row_, columns_[c].word), "write it");
        whole = false;
      }
    if (whole) return true;
  }
}

bool ColumnsFile::header() {
  std::vector<std::string> known;
  for (const RecordColumn& column : columns_) known.emplace_back(column.word);
  width_ = cells_.size();
  for (std::size_t i = 0; i < cells_.size(); ++i) {
    const std::string word = points_row::plain(cells_[i]);
    const auto at = std::ranges::find(known, word);
    if (at == known.end()) {
      const auto near = word.size() <= longest_word ? nearest(word, known) : std::nullopt;
      add(cells_[i], fmt::format("there is no column \"{}\"", points_row::shown(word)),
          near ? fmt::format("did you mean \"{}\"?", *near) : fmt::format("known: {}", fmt::join(known, ", ")));
      continue;
    }
    auto& cell = cell_of_[static_cast<std::size_t>(at - known.begin())];
    if (cell) add(cells_[i], fmt::format("the column \"{}\" is there already", word), "remove one of them");
    cell = i;
  }
  if (!errors_.first.empty()) return false;
  std::vector<std::string_view> missing;
  for (std::size_t c = 0; c < columns_.size(); ++c)
    if (columns_[c].required && !cell_of_[c]) missing.push_back(columns_[c].word);
  if (missing.empty()) return true;
  add({0, line_.size(), fmt::format("the header does not name the column {}", fmt::join(missing, ", ")),
       fmt::format("begin the file with a line like {}", fmt::join(known, ","))});
  return false;
}

bool ColumnsFile::given(std::size_t column) const {
  return cell_of_[column] && cells_[*cell_of_[column]].text.find_first_not_of(' ') != std::string_view::npos;
}

std::string ColumnsFile::text(std::size_t column) const {
  return given(column) ? points_row::plain(cells_[*cell_of_[column]]) : std::string();
}

void ColumnsFile::wrong(std::size_t column, std::string message, std::string instead) {
  if (cell_of_[column])
    add(cells_[*cell_of_[column]], std::move(message), std::move(instead));
  else
    add({0, line_.size(), std::move(message), std::move(instead)});
}

std::optional<Date> ColumnsFile::date(std::size_t column) {
  if (!given(column)) return std::nullopt;
  const auto read = read_date(text(column));
  if (!read)
    wrong(
        column,
        fmt::format("the {} \"{}\" is no day of the calendar", columns_[column].word, points_row::shown(text(column))),
        "write it like 2026-10-30");
  return read;
}

std::optional<double> ColumnsFile::number(std::size_t column, double least) {
  if (!given(column)) return std::nullopt;
  const auto [value, flaw] = points_row::number(cells_[*cell_of_[column]], columns_[column].word);
  if (flaw) {
    add({flaw->at, flaw->length, flaw->message, "write it like 12.5; its unit is in the column's name"});
    return std::nullopt;
  }
  if (!(value >= least)) {
    wrong(column, fmt::format("the {} is {}", columns_[column].word, points_row::shown(text(column))),
          fmt::format("it is {} or more", least));
    return std::nullopt;
  }
  return value;
}

}  // namespace fairlead

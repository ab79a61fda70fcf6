#include "geometry/survey/points_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "geometry/quantity/nearest.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/csv_lines.hpp"
#include "geometry/survey/ids.hpp"
#include "geometry/survey/points_kept.hpp"
#include "geometry/survey/points_row.hpp"

namespace fairlead {
namespace {

using points_row::Cell;
using points_row::Flaw;

enum Column : std::size_t { point, northing, easting, elevation, description, target_offset, columns_known };
constexpr std::array<std::string_view, columns_known> column_words{"point",     "northing",    "easting",
                                                                   "elevation", "description", "target_offset"};
struct Alias {
  std::string_view word;
  Column column;
};
// x and y are none: some grids count x to the north.
constexpr Alias aliases[] = {{"point", point},
                             {"id", point},
                             {"name", point},
                             {"northing", northing},
                             {"north", northing},
                             {"n", northing},
                             {"easting", easting},
                             {"east", easting},
                             {"e", easting},
                             {"elevation", elevation},
                             {"up", elevation},
                             {"z", elevation},
                             {"description", description},
                             {"target_offset", target_offset}};

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return lower;
}

std::optional<Column> column_named(std::string_view text) {
  const std::string word = lower_case(text);
  for (const Alias& alias : aliases)
    if (alias.word == word) return alias.column;
  return std::nullopt;
}

double metres_of(PointsUnit unit) { return find_unit(keyword(unit), Dimension::length)->to_si; }

class PointsReader : CsvLines {
 public:
  /// `wanted`: nothing where all are.
  PointsReader(std::string_view text, const PointsFormat& format, const std::function<bool(std::string_view)>& wanted,
               const Work& work)
      : CsvLines(text),
        text_(text),
        format_(format),
        wanted_(wanted),
        work_(work),
        unit_m_(metres_of(format.unit)),
        ids_(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) + 1,
             [this](std::size_t at, std::string_view id) { return stands_at(at, id); }) {}

  tl::expected<PointsRead, PointsErrors> read() {
    while (!stop_) {
      if (number_ % told_every == 0) tell();
      const Row next = next_row();
      if (next == Row::end) break;
      if (next == Row::flawed)
        stop_ = count_ == 0 && format_.order == PointsOrder::named;  // without its header nothing has a name
      else if (count_ == 0)
        first_row();
      else
        row();
    }
    if (out_.points.empty() && errors_.first.empty())
      add_of_file("there is no point in the file", "write a line for each point");
    tell_twins();
    if (!errors_.first.empty()) return tl::unexpected<PointsErrors>(std::move(errors_));
    return std::move(out_);
  }

 private:
  static constexpr unsigned told_every = 1u << 18;

  void tell() const {
    if (work_.stop.stop_requested()) throw Cancelled{};
    if (work_.progress && number_ > 0)
      work_.progress("points", static_cast<double>(line_at()) / static_cast<double>(text_.size()));
  }

  std::size_t line_at() const { return static_cast<std::size_t>(line_.data() - text_.data()); }

  // The first line that is no comment says how many columns there are and, when they are named, which.
  void first_row() {
    count_ = cells_.size();
    first_line_ = number_;
    if (format_.order == PointsOrder::named) return header();
    const bool easting_first = format_.order == PointsOrder::penzd;
    cell_of_ = {0, easting_first ? 2u : 1u, easting_first ? 1u : 2u, 3, cells_.size() == 5 ? 4 : none, none};
    if (count_ >= 2 && column_named(cells_[1].text)) {
      add(cells_[0],
          fmt::format("this is a header, and a points file of the order \"{}\" has none", keyword(format_.order)),
          "remove the line, or state the order \"named\"");
      stop_ = count_ != 4 && count_ != 5;
    } else if (count_ != 4 && count_ != 5) {
      wrong_count(fmt::format("the order \"{}\" has five, or four without descriptions", keyword(format_.order)));
      count_ = 0;
    } else {
      row();
    }
  }

  void header() {
    std::vector<std::string> known;
    for (const Alias& alias : aliases) known.emplace_back(alias.word);
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      const Cell& cell = cells_[i];
      const std::string word = lower_case(cell.text);
      if (const auto column = column_named(cell.text)) {
        if (cell_of_[*column] != none)
          add(cell, fmt::format("the column \"{}\" is there already", column_words[*column]), "remove one of them");
        cell_of_[*column] = i;
      } else if (word == "x" || word == "y") {
        add(cell, fmt::format("\"{}\" may count to the north or to the east", points_row::shown(cell.text)),
            "write \"northing\" or \"easting\"");
      } else {
        const auto near = word.size() <= 40 ? nearest(word, known) : std::nullopt;
        add(cell, fmt::format("there is no column \"{}\"", points_row::shown(cell.text)),
            near ? fmt::format("did you mean \"{}\"?", *near)
                 : fmt::format("known: {}", fmt::join(column_words, ", ")));
      }
    }
    if (cell_of_[target_offset] != none && format_.target_offset_m != 0)
      add(cells_[cell_of_[target_offset]], "the offset of the targets is stated for the whole file already",
          "state it once: in this column, or for the whole file");
    if (errors_.first.empty()) {
      std::vector<std::string_view> missing;
      for (const Column column : {point, northing, easting, elevation})
        if (cell_of_[column] == none) missing.push_back(column_words[column]);
      if (!missing.empty())
        add({0, line_.size(), fmt::format("the header does not name the column {}", fmt::join(missing, ", ")),
             "begin the file with a line like point,northing,easting,elevation,description"});
    }
    stop_ = !errors_.first.empty();  // what stands in an unnamed column is not judged
  }

  void wrong_count(const std::string& wanted) {
    // "1,5" in place of 1.5 makes columns that are all numbers but the ends.
    const bool decimal_commas =
        cells_.size() > 5 && std::all_of(cells_.begin() + 1, cells_.end() - 1,
                                         [](const Cell& c) { return !points_row::number(c, "").flaw; });
    std::string instead = "separate the columns by commas, and write decimals with a point";
    if (decimal_commas)
      instead = "write decimals with a point: 1.5, not 1,5";
    else if (cells_.size() > 4)
      instead = "put a text that holds a comma in quotes, and write decimals with a point";
    else if (line_.find(';') != line_.npos)
      instead = "separate the columns by commas, not semicolons, and write decimals with a point";
    add({0, line_.size(),
         fmt::format("the line has {} column{}, and {}", cells_.size(), cells_.size() == 1 ? "" : "s", wanted),
         instead});
  }

  void row() {
    if (cells_.size() != count_) return wrong_count(fmt::format("line {}, the first, has {}", first_line_, count_));
    const Cell& id = cells_[cell_of_[point]];
    if (id.text.find_first_not_of(' ') == id.text.npos) add(id, "the point has no id", "give it one of its own");
    // Doubled quotes alone make a text another than it is written; most have none, and need no copy.
    const bool as_written = !id.quoted || id.text.find('"') == id.text.npos;
    const std::string unquoted = as_written ? std::string() : points_row::plain(id);
    const std::string_view name = as_written ? id.text : std::string_view(unquoted);
    note(id, name);
    // In the order of the columns, so that the errors stand in the order of their places.
    std::array<double, columns_known> value{};
    for (std::size_t i = 0; i < count_; ++i)
      for (const Column column : {northing, easting, elevation, target_offset})
        if (cell_of_[column] == i) value[column] = length(cells_[i], column);
    if (wanted_ && !wanted_(name) && unwanted_++ >= most_unwanted) {
      ++out_.left_out;
      return;
    }
    const double offset_m = cell_of_[target_offset] == none ? format_.target_offset_m : value[target_offset];
    out_.points.push_back({.id = std::string(name),
                           .at = {value[easting], value[northing], value[elevation] - offset_m},
                           .description = cell_of_[description] == none
                                              ? std::string()
                                              : points_row::plain(cells_[cell_of_[description]]),
                           .line = number_});
  }

  double length(const Cell& cell, Column column) {
    const auto [value, flaw] = points_row::number(cell, column_words[column]);
    if (flaw) {
      add(*flaw);
      return 0;
    }
    const double m = value * unit_m_,
                 most_m = column == target_offset ? greatest_target_offset_m : farthest_coordinate_m;
    if (!(std::abs(m) <= most_m))
      add(cell, fmt::format("the {} is {:.10g} m, beyond {:.0f} m", column_words[column], m, most_m),
          fmt::format("check it, and the unit of the file, \"{}\"", keyword(format_.unit)));
    return m;
  }

  void note(const Cell& cell, std::string_view id) {
    if (id.empty()) return;
    const auto first = ids_.note(id, line_at());
    if (!first) return;
    if (twins_.size() < most_csv_errors)
      twins_.push_back({number_, line_, cell.at, cell.length, std::string(id), *first});
    else
      ++more_twins_;
  }

  /// Whether the point of the line that begins there has this id.
  bool stands_at(std::size_t at, std::string_view id) {
    std::string_view line = text_.substr(at, text_.find('\n', at) - at);
    if (line.ends_with('\r')) line.remove_suffix(1);
    return !points_row::split(line, cells_there_) && points_row::plain(cells_there_.at(cell_of_[point])) == id;
  }

  void tell_twins() {
    // One way through the text numbers all the lines where they stood first.
    std::vector<std::size_t> firsts;
    for (const Twin& twin : twins_) firsts.push_back(twin.first);
    std::sort(firsts.begin(), firsts.end());
    std::map<std::size_t, unsigned> number_at;
    std::size_t at = 0;
    unsigned number = 1;
    for (const std::size_t first : firsts) {
      number += static_cast<unsigned>(std::count(text_.begin() + static_cast<std::ptrdiff_t>(at),
                                                 text_.begin() + static_cast<std::ptrdiff_t>(first), '\n'));
      number_at[first] = number;
      at = first;
    }
    std::vector<PointsError> told;
    for (const Twin& twin : twins_)
      told.push_back(error_of(
          {twin.at, twin.length,
           fmt::format("the point \"{}\" stands in line {} already", points_row::shown(twin.id), number_at[twin.first]),
           "give it an id of its own, or remove one of the two"},
          twin.number, twin.line));
    add_later(std::move(told), more_twins_);
  }

  struct Twin {
    unsigned number{};
    std::string_view line;
    std::size_t at{}, length{};  // of the id in the line
    std::string id;
    std::size_t first{};  // where the line begins that has it already
  };
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  std::string_view text_;
  const PointsFormat& format_;
  const std::function<bool(std::string_view)>& wanted_;
  const Work& work_;
  double unit_m_;
  bool stop_ = false;
  unsigned first_line_ = 0;
  std::size_t count_ = 0;  // columns; 0 until they are known
  std::array<std::size_t, columns_known> cell_of_{none, none, none, none, none, none};
  std::vector<Cell> cells_there_;
  Ids ids_;
  std::vector<Twin> twins_;  // the first of them
  std::size_t more_twins_ = 0, unwanted_ = 0;
  PointsRead out_;
};

std::string too_large(std::size_t bytes, std::size_t most) {
  return fmt::format("the file has {} bytes, and a points file at most {}", bytes, most);
}

tl::expected<PointsRead, PointsErrors> read_up_to(std::size_t most_bytes, std::string_view text,
                                                  const PointsFormat& format,
                                                  const std::function<bool(std::string_view)>& wanted,
                                                  const Work& work) {
  if (text.size() > most_bytes)
    return tl::unexpected<PointsErrors>(PointsErrors{
        {{.message = too_large(text.size(), most_bytes), .instead = "leave only the points of this rig in it"}}, 0});
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return PointsReader(*lines, format, wanted, work).read();
}

// A text that reads back out of one line.
bool in_one_line(std::string_view text) {
  const bool control = std::any_of(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7F;
  });
  return !control && is_utf8(text);
}

// Rounds to 0.05 mm or better in every unit.
std::string digits_of(double value, PointsUnit unit) {
  std::string digits = fmt::format("{:.{}f}", value, unit == PointsUnit::mm ? 1 : 4);
  if (digits[0] == '-' && digits.find_first_not_of("-0.") == digits.npos) digits.erase(0, 1);
  return digits;
}

}  // namespace

std::string points_file_too_large(std::size_t bytes) { return too_large(bytes, largest_points_file); }

tl::expected<std::vector<SurveyPoint>, PointsErrors> read_points(std::string_view text, const PointsFormat& format) {
  auto read = read_up_to(largest_points_file, text, format, nullptr, {});
  if (!read) return tl::unexpected<PointsErrors>(std::move(read.error()));
  return std::move(read->points);
}

tl::expected<PointsRead, PointsErrors> read_wanted_points(std::string_view text, const PointsFormat& format,
                                                          const std::function<bool(std::string_view)>& wanted,
                                                          const Work& work) {
  return read_up_to(largest_survey_file, text, format, wanted, work);
}

Solved<std::string> points_text(std::span<const SurveyPoint> points, const PointsFormat& format) {
  const double unit_m = metres_of(format.unit);
  std::string text;
  if (format.order == PointsOrder::named) text = "point,northing,easting,elevation,description\n";
  std::set<std::string_view> ids;
  for (const SurveyPoint& point : points) {
    const auto no = [&](std::string_view what) { return unsolved(fmt::format("the point \"{}\" {}", point.id, what)); };
    if (point.id.find_first_not_of(" \t") == point.id.npos) return no("has no id");
    if (!ids.insert(point.id).second) return no("stands in the list twice");
    if (!in_one_line(point.id) || !in_one_line(point.description)) return no("has a text that is no line of UTF-8");
    const Point3 target = point.at + Vec3{0, 0, format.target_offset_m};
    for (const double m : {target.x, target.y, target.z})
      if (!(std::abs(m) <= farthest_coordinate_m)) return no("has no place that is known and near enough");
    std::string north = digits_of(target.y / unit_m, format.unit), east = digits_of(target.x / unit_m, format.unit);
    if (format.order == PointsOrder::penzd) std::swap(north, east);
    text += fmt::format("{},{},{},{},{}\n", points_row::as_cell(point.id), north, east,
                        digits_of(target.z / unit_m, format.unit), points_row::as_cell(point.description));
  }
  return text;
}

}  // namespace fairlead

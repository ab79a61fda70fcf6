#include "geometry/survey/measurements_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <utility>

#include "geometry/quantity/nearest.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/csv_lines.hpp"

namespace fairlead {
namespace {

using points_row::Cell;

constexpr double pi = std::numbers::pi;
/// No tape and no zip line is longer, no chainage or level farther out.
constexpr double far_m = 1e5;
constexpr double coldest_K = 273.15 - 90, warmest_K = 273.15 + 90;

constexpr std::array<MeasurandKind, measurands> kinds{{{"tension", Dimension::force, 1, 1e7},
                                                       {"sag", Dimension::length, 1e-3, far_m},
                                                       {"temperature", Dimension::temperature, coldest_K, warmest_K},
                                                       {"rest_extension", Dimension::length, 0, far_m},
                                                       {"rest", Dimension::length, -far_m, far_m},
                                                       {"length", Dimension::length, 1e-3, far_m},
                                                       {"bearing", Dimension::angle, 0, 2 * pi},
                                                       {"tilt", Dimension::angle, -pi / 2, pi / 2},
                                                       {"platform_from", Dimension::length, -far_m, far_m},
                                                       {"platform_to", Dimension::length, -far_m, far_m},
                                                       {"platform_level", Dimension::length, -far_m, far_m},
                                                       {"engages", Dimension::length, -far_m, far_m}}};

enum Column : std::size_t { item, quantity, value, unit, uncertainty, columns_known };
constexpr std::array<std::string_view, columns_known> column_words{"item", "quantity", "value", "unit", "uncertainty"};

template <class Words, class Word>
std::optional<std::size_t> index_of(const Words& words, std::string_view wanted, const Word& word) {
  for (std::size_t i = 0; i < words.size(); ++i)
    if (word(words[i]) == wanted) return i;
  return std::nullopt;
}

template <class Words, class Word>
std::string meant(const Words& words, std::string_view written, const Word& word) {
  constexpr std::size_t longest_word = 40;
  std::vector<std::string> known;
  for (const auto& one : words) known.emplace_back(word(one));
  if (written.size() <= longest_word)
    if (const auto near = nearest(written, known)) return fmt::format("did you mean \"{}\"?", *near);
  return fmt::format("known: {}", fmt::join(known, ", "));
}

constexpr auto itself = [](std::string_view word) { return word; };
constexpr auto word_of = [](const MeasurandKind& kind) { return kind.word; };

std::string units_of(Dimension dimension) {
  std::vector<std::string_view> names;
  for (const Unit& one : all_units())
    if (one.dimension == dimension) names.push_back(one.name);
  return fmt::format("write one of {}", fmt::join(names, ", "));
}

class MeasurementsReader : CsvLines {
 public:
  explicit MeasurementsReader(std::string_view text) : CsvLines(text) {}

  tl::expected<std::vector<Measurement>, PointsErrors> read() {
    bool named = false;
    for (Row next = next_row(); next != Row::end; next = next_row()) {
      if (!named) {
        // What stands in an unnamed column is not judged.
        if (next == Row::cells) header();
        if (!errors_.first.empty()) break;
        named = true;
      } else if (next == Row::cells) {
        row();
      }
    }
    if (measured_.empty() && errors_.first.empty())
      add_of_file("there is no measurement in the file",
                  "begin it with item,quantity,value,unit,uncertainty and write a line for each");
    find_twins();
    if (!errors_.first.empty()) return tl::unexpected<PointsErrors>(std::move(errors_));
    return std::move(measured_);
  }

 private:
  void header() {
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      std::string word(cells_[i].text);
      std::ranges::transform(word, word.begin(),
                             [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
      const auto column = index_of(column_words, word, itself);
      if (!column)
        add(cells_[i], fmt::format("there is no column \"{}\"", points_row::shown(cells_[i].text)),
            meant(column_words, word, itself));
      else if (std::exchange(cell_of_[*column], i) != none)
        add(cells_[i], fmt::format("the column \"{}\" is there already", word), "remove one of them");
    }
    std::vector<std::string_view> missing;
    for (std::size_t column = 0; column < columns_known; ++column)
      if (cell_of_[column] == none) missing.push_back(column_words[column]);
    if (errors_.first.empty() && !missing.empty())
      add({0, line_.size(), fmt::format("the header does not name the column {}", fmt::join(missing, ", ")),
           "begin the file with a line like item,quantity,value,unit,uncertainty"});
  }

  Columns columns(const Cell& cell) const {
    return {columns_of(line_.substr(0, cell.at)) + 1, std::max(1u, columns_of(line_.substr(cell.at, cell.length)))};
  }

  void row() {
    if (cells_.size() != columns_known)
      return add({0, line_.size(),
                  fmt::format("the line has {} column{}, and the header {}", cells_.size(),
                              cells_.size() == 1 ? "" : "s", static_cast<std::size_t>(columns_known)),
                  "separate the columns by commas, and write decimals with a point"});
    const Cell &what = cells_[cell_of_[item]], &which = cells_[cell_of_[quantity]], &in = cells_[cell_of_[unit]];
    Measurement one{.item = points_row::plain(what),
                    .line = number_,
                    .item_at = columns(what),
                    .measurand_at = columns(which),
                    .value_at = columns(cells_[cell_of_[value]]),
                    .source_line = std::string(line_)};
    if (what.text.find_first_not_of(' ') == what.text.npos)
      add(what, "the measurement has no item", "write the id of what was measured, or main_line, brake_unit, ...");
    const auto found = index_of(kinds, which.text, word_of);
    if (!found) {
      add(which, fmt::format("there is no quantity \"{}\"", points_row::shown(which.text)),
          meant(kinds, which.text, word_of));
      return;  // its unit and range are not known
    }
    one.measurand = static_cast<Measurand>(*found);
    const MeasurandKind& kind = kinds[*found];
    const Unit* units = find_unit(in.text, kind.dimension);
    if (!units)
      add(in, fmt::format("\"{}\" is no unit of {}", points_row::shown(in.text), dimension_words(kind.dimension)),
          units_of(kind.dimension));
    numbers(one, kind, units);
    measured_.push_back(std::move(one));
  }

  void numbers(Measurement& one, const MeasurandKind& kind, const Unit* units) {
    const Cell &number = cells_[cell_of_[value]], &off = cells_[cell_of_[uncertainty]];
    const auto [written, flaw] = points_row::number(number, "value");
    const auto [doubt, doubt_flaw] = points_row::number(off, "uncertainty");
    for (const auto* wrong : {&flaw, &doubt_flaw})
      if (*wrong)
        add({(*wrong)->at, (*wrong)->length, (*wrong)->message,
             "write it like 12.345; its unit has a column of its own"});
    if (!doubt_flaw && !((units ? units->to_si : 1) * doubt > 0))  // nor so little that it becomes 0
      add(off, "the uncertainty is not above 0", "write one standard uncertainty, in the unit of the value");
    if (!units || flaw || doubt_flaw) return;
    one.value = units->offset + units->to_si * written;
    one.uncertainty = units->to_si * doubt;
    if (!(kind.least <= one.value && one.value <= kind.most))
      add(number, fmt::format("the {} is {}", kind.word, print_quantity({one.value, kind.dimension})),
          fmt::format("it may be from {} to {}: check it and its unit", print_quantity({kind.least, kind.dimension}),
                      print_quantity({kind.most, kind.dimension})));
  }

  void find_twins() {
    std::map<std::pair<std::string_view, Measurand>, unsigned> first;
    std::vector<PointsError> told;
    std::size_t more = 0;
    for (const Measurement& one : measured_) {
      const auto [at, fresh] = first.try_emplace({one.item, one.measurand}, one.line);
      if (fresh || one.item.empty()) continue;
      if (told.size() == most_csv_errors) {
        ++more;
        continue;
      }
      told.push_back(error_at(one, one.item_at,
                              fmt::format("the {} of \"{}\" stands in line {} already", kind_of(one.measurand).word,
                                          points_row::shown(one.item), at->second),
                              "give the mean of both with its uncertainty, or remove one of the two"));
    }
    add_later(std::move(told), more);
  }

  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  std::array<std::size_t, columns_known> cell_of_{none, none, none, none, none};
  std::vector<Measurement> measured_;
};

}  // namespace

const MeasurandKind& kind_of(Measurand measurand) { return kinds.at(static_cast<std::size_t>(measurand)); }

PointsError error_at(const Measurement& one, Columns at, std::string message, std::string instead) {
  return {.line = one.line,
          .column = at.column,
          .length = at.length,
          .message = std::move(message),
          .instead = std::move(instead),
          .source_line = one.source_line};
}

tl::expected<std::vector<Measurement>, PointsErrors> read_measurements(std::string_view text) {
  if (text.size() > largest_measurements_file)
    return tl::unexpected<PointsErrors>(
        PointsErrors{{{.message = fmt::format("the file has {} bytes, and a file of measurements at most {}",
                                              text.size(), largest_measurements_file),
                       .instead = "leave only the measurements of this rig in it"}},
                     0});
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return MeasurementsReader(*lines).read();
}

}  // namespace fairlead

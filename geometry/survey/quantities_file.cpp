#include "geometry/survey/quantities_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "geometry/quantity/nearest.hpp"
#include "geometry/quantity/units.hpp"
#include "geometry/quantity/utf8.hpp"
#include "geometry/survey/csv_lines.hpp"

namespace fairlead {
namespace {

using points_row::Cell;

enum Column : std::size_t { item, quantity, value, unit, uncertainty, columns_known };
using ColumnWords = std::array<std::string_view, columns_known>;

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
constexpr auto word_of = [](const QuantityKind& kind) { return kind.word; };

std::string units_of(Dimension dimension) {
  std::vector<std::string_view> names;
  for (const Unit& one : all_units())
    if (one.dimension == dimension) names.push_back(one.name);
  return fmt::format("write one of {}", fmt::join(names, ", "));
}

class QuantitiesReader : CsvLines {
 public:
  QuantitiesReader(std::string_view text, const QuantitiesFormat& format)
      : CsvLines(text), format_(format), column_words_{format.item, "quantity", "value", "unit", "uncertainty"} {}

  tl::expected<std::vector<QuantityRow>, PointsErrors> read() {
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
    if (rows_.empty() && errors_.first.empty())
      add_of_file(fmt::format("there is no {} in the file", format_.row),
                  fmt::format("begin it with {} and write a line for each", fmt::join(column_words_, ",")));
    find_twins();
    if (!errors_.first.empty()) return tl::unexpected<PointsErrors>(std::move(errors_));
    return std::move(rows_);
  }

 private:
  static std::string lower(std::string_view text) {
    std::string word(text);
    std::ranges::transform(word, word.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return word;
  }

  void header() {
    const std::string hint = fmt::format("begin the file with a line like {}", fmt::join(column_words_, ","));
    if (std::ranges::none_of(
            cells_, [&](const Cell& cell) { return index_of(column_words_, lower(cell.text), itself).has_value(); }))
      return add({0, line_.size(), "the first line is no header: it names no column", hint});
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      const std::string word = lower(cells_[i].text);
      const auto column = index_of(column_words_, word, itself);
      if (!column)
        add(cells_[i], fmt::format("there is no column \"{}\"", points_row::shown(cells_[i].text)),
            meant(column_words_, word, itself));
      else if (std::exchange(cell_of_[*column], i) != none)
        add(cells_[i], fmt::format("the column \"{}\" is there already", word), "remove one of them");
    }
    std::vector<std::string_view> missing;
    for (std::size_t column = 0; column < columns_known; ++column)
      if (cell_of_[column] == none) missing.push_back(column_words_[column]);
    if (errors_.first.empty() && !missing.empty())
      add({0, line_.size(), fmt::format("the header does not name the column {}", fmt::join(missing, ", ")), hint});
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
    QuantityRow one{.item = points_row::plain(what),
                    .line = number_,
                    .item_at = columns(what),
                    .quantity_at = columns(which),
                    .value_at = columns(cells_[cell_of_[value]]),
                    .source_line = std::string(line_)};
    if (what.text.find_first_not_of(' ') == what.text.npos)
      add(what, fmt::format("the {} has no {}", format_.row, format_.item), std::string(format_.item_hint));
    const auto found = index_of(format_.kinds, which.text, word_of);
    if (!found) {
      add(which, fmt::format("there is no quantity \"{}\"", points_row::shown(which.text)),
          meant(format_.kinds, which.text, word_of));
      return;  // its unit and range are not known
    }
    one.quantity = *found;
    const QuantityKind& kind = format_.kinds[*found];
    if (kind.dimension == Dimension::none) {
      count(one, kind);
      rows_.push_back(std::move(one));
      return;
    }
    const Unit* units = find_unit(in.text, kind.dimension);
    if (!units)
      add(in, fmt::format("\"{}\" is no unit of {}", points_row::shown(in.text), dimension_words(kind.dimension)),
          units_of(kind.dimension));
    numbers(one, kind, units);
    rows_.push_back(std::move(one));
  }

  /// A number of times has neither unit nor uncertainty.
  void count(QuantityRow& one, const QuantityKind& kind) {
    const Cell &number = cells_[cell_of_[value]], &in = cells_[cell_of_[unit]], &off = cells_[cell_of_[uncertainty]];
    for (const Cell* cell : {&in, &off})
      if (!cell->text.empty())
        add(*cell, fmt::format("\"{}\" is counted, and has neither unit nor uncertainty", kind.word),
            "leave the column empty");
    const auto [written, flaw] = points_row::number(number, "value");
    if (flaw) return add({flaw->at, flaw->length, flaw->message, "write a whole number"});
    one.value = written;
    if (!(kind.least <= written && written <= kind.most && written == std::floor(written)))
      add(number, fmt::format("\"{}\" is {}", kind.word, points_row::shown(number.text)),
          fmt::format("write a whole number from {:.0f} to {:.0f}", kind.least, kind.most));
  }

  void numbers(QuantityRow& one, const QuantityKind& kind, const Unit* units) {
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
    std::map<std::pair<std::string_view, std::size_t>, unsigned> first;
    std::vector<PointsError> told;
    std::size_t more = 0;
    for (const QuantityRow& one : rows_) {
      const auto [at, fresh] = first.try_emplace({one.item, one.quantity}, one.line);
      if (fresh || one.item.empty()) continue;
      if (told.size() == most_csv_errors) {
        ++more;
        continue;
      }
      told.push_back(error_at(one, one.item_at,
                              fmt::format("the {} of \"{}\" stands in line {} already",
                                          format_.kinds[one.quantity].word, points_row::shown(one.item), at->second),
                              "give the mean of both with its uncertainty, or remove one of the two"));
    }
    add_later(std::move(told), more);
  }

  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  const QuantitiesFormat& format_;
  ColumnWords column_words_;
  std::array<std::size_t, columns_known> cell_of_{none, none, none, none, none};
  std::vector<QuantityRow> rows_;
};

}  // namespace

PointsError error_at(const QuantityRow& one, Columns at, std::string message, std::string instead) {
  return {.line = one.line,
          .column = at.column,
          .length = at.length,
          .message = std::move(message),
          .instead = std::move(instead),
          .source_line = one.source_line};
}

tl::expected<std::vector<QuantityRow>, PointsErrors> read_quantities(std::string_view text,
                                                                     const QuantitiesFormat& format) {
  if (text.size() > largest_quantities_file)
    return tl::unexpected<PointsErrors>(
        PointsErrors{{{.message = fmt::format("the file has {} bytes, and a file of {}s at most {}", text.size(),
                                              format.row, largest_quantities_file),
                       .instead = fmt::format("leave only the {}s of this rig in it", format.row)}},
                     0});
  const auto lines = lines_of(text);
  if (!lines) return tl::unexpected<PointsErrors>(lines.error());
  return QuantitiesReader(*lines, format).read();
}

}  // namespace fairlead

// Tables and paragraphs: blocks of lettering that are measured before they are set.
#pragma once

#include "report/drawing/canvas.hpp"

namespace fairlead::drawing {

struct Size {
  double width_mm{}, height_mm{};
};

/// Lines of text under a heading. A paragraph's `mark` ("1.", "PASS") stands to its left in a column of its own.
struct Paragraph {
  std::string mark, text;
  Layer layer = Layer::notes;
};
struct Typography {
  double cap_mm = note_cap_mm, heading_mm = heading_cap_mm;
  int columns = 1;  ///< 1 or 2, filled one after the other
};
class Paragraphs {
 public:
  Paragraphs(std::string heading, std::vector<Paragraph> paragraphs, Typography type)
      : heading_(std::move(heading)), paragraphs_(std::move(paragraphs)), type_(type) {}
  double height(const Canvas&, double width_mm) const;
  void draw(const Canvas&, Paper top_left, double width_mm) const;
  const std::string& heading() const { return heading_; }

 private:
  double mark_width(const Canvas&) const;
  double column_width(double width_mm) const;
  std::vector<std::vector<std::string>> lines(const Canvas&, double width_mm) const;
  double stacked(const std::vector<std::vector<std::string>>&, std::size_t from, std::size_t to) const;
  std::size_t second_column(const std::vector<std::vector<std::string>>&) const;
  std::string heading_;
  std::vector<Paragraph> paragraphs_;
  Typography type_;
};

/// A ruled table. Columns are as wide as their widest entry and wrap their headings; when all together are wider than
/// allowed, the columns that may wrap share what is left.
struct Column {
  std::string heading;
  Align align = Align::left;
  bool wraps = false;
};
class Grid {
 public:
  Grid(std::string title, std::vector<Column> columns, std::vector<std::vector<std::string>> rows,
       double cap_mm = small_cap_mm)
      : title_(std::move(title)), columns_(std::move(columns)), rows_(std::move(rows)), cap_mm_(cap_mm) {}
  Size size(const Canvas&, double greatest_width_mm) const;
  /// As narrow as it can be: no word broken.
  double least_width(const Canvas&) const;
  void draw(const Canvas&, Paper top_left, double greatest_width_mm) const;
  const std::string& title() const { return title_; }
  /// Its columns in as many parts, in their order, as it takes for none to be wider than that where no word is broken.
  /// The columns that tell its rows from one another lead every part. One part where it fits, or no part would.
  std::vector<std::vector<std::size_t>> column_parts(const Canvas&, double greatest_width_mm) const;
  /// These of its columns.
  Grid of_columns(const std::vector<std::size_t>&, std::string title) const;

 private:
  struct Measured {
    std::vector<double> widths;
    std::vector<double> heights;                               ///< heading row first
    std::vector<std::vector<std::vector<std::string>>> lines;  ///< [row][column]
  };
  Measured measure(const Canvas&, double greatest_width_mm) const;
  double least_width(const Canvas&, std::size_t column) const;
  double greatest_least_width(const Canvas&, std::size_t column) const;
  std::vector<double> column_widths(const Canvas&, double greatest_width_mm) const;
  std::size_t lines(const Canvas&, const std::vector<double>& widths,
                    const std::vector<std::vector<double>>& whole_mm) const;
  std::string title_;
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
  double cap_mm_;
};

}  // namespace fairlead::drawing

// What a crew writes down at the unmanned tests: a row a test, with room for a pen.
#include <algorithm>

#include "geometry/trial/trial.hpp"
#include "report/sheets/list.hpp"
#include "report/sheets/pages.hpp"
#include "report/tables/tables.hpp"

namespace fairlead::sheets {

using namespace drawing;

namespace {

constexpr double row_mm = 9, inset_mm = 1, line_pitch = 1.6, title_mm = 6;
constexpr Pen rule{narrow_mm, LineType::continuous, Layer::tables},
    edge{medium_mm, LineType::continuous, Layer::tables};

bool applies(const Dossier& dossier) { return dossier.trial && dossier.trial->plan; }

/// Columns that are filled in beforehand are as wide as that needs, the others share what is left.
class Record {
 public:
  explicit Record(tables::Shown table) : table_(std::move(table)) {}

  double least_width(const Canvas& canvas) const {
    constexpr double least_blank_mm = 16;
    double all = 0;
    for (std::size_t c = 0; c < table_.headings.size(); ++c) all += blank(c) ? least_blank_mm : filled_mm(canvas, c);
    return all;
  }
  double height(const Canvas& canvas, double width_mm) const {
    return title_mm + heading_mm(canvas, width_mm) + row_mm * static_cast<double>(table_.rows.size());
  }
  void draw(const Canvas& canvas, Paper top_left, double width_mm) const {
    canvas.text(top_left - Paper{0, heading_cap_mm}, table_.title, heading_cap_mm, Layer::tables);
    const double top = top_left.y_mm - title_mm, below = top - heading_mm(canvas, width_mm),
                 bottom = below - row_mm * static_cast<double>(table_.rows.size());
    const std::vector<double> widths = widths_mm(canvas, width_mm);
    double left = top_left.x_mm;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      double y = top - inset_mm - small_cap_mm;
      for (const std::string& line : canvas.wrap(table_.headings[c], small_cap_mm, widths[c] - 2 * inset_mm)) {
        canvas.lettering({left + inset_mm, y}, line, small_cap_mm, Layer::tables);
        y -= line_pitch * small_cap_mm;
      }
      for (std::size_t r = 0; r < table_.rows.size(); ++r)
        if (!table_.rows[r][c].empty())
          canvas.text({left + inset_mm, below - row_mm * (static_cast<double>(r) + 0.5) - small_cap_mm / 2},
                      with_minus(table_.rows[r][c]), small_cap_mm, Layer::tables);
      if (c > 0) canvas.line({{left, bottom}, {left, top}}, rule);
      left += widths[c];
    }
    for (std::size_t r = 0; r < table_.rows.size(); ++r) {
      const double y = below - row_mm * static_cast<double>(r);
      canvas.line({{top_left.x_mm, y}, {left, y}}, rule);
    }
    canvas.box({top_left.x_mm, bottom, left, top}, edge);
  }

 private:
  bool blank(std::size_t column) const {
    return std::ranges::all_of(table_.rows, [&](const auto& row) { return row[column].empty(); });
  }
  double filled_mm(const Canvas& canvas, std::size_t column) const {
    // No word of the heading is broken.
    double widest = canvas.word_width(table_.headings[column], small_cap_mm);
    for (const auto& row : table_.rows) widest = std::max(widest, canvas.width(row[column], small_cap_mm));
    return widest + 2 * inset_mm;
  }
  std::vector<double> widths_mm(const Canvas& canvas, double width_mm) const {
    std::vector<double> widths(table_.headings.size());
    double filled = 0, blanks = 0;
    for (std::size_t c = 0; c < widths.size(); ++c) blank(c) ? blanks += 1 : filled += filled_mm(canvas, c);
    for (std::size_t c = 0; c < widths.size(); ++c)
      widths[c] = blank(c) ? (width_mm - filled) / blanks : filled_mm(canvas, c);
    return widths;
  }
  double heading_mm(const Canvas& canvas, double width_mm) const {
    const std::vector<double> widths = widths_mm(canvas, width_mm);
    std::size_t most = 1;
    for (std::size_t c = 0; c < widths.size(); ++c)
      most = std::max(most, canvas.wrap(table_.headings[c], small_cap_mm, widths[c] - 2 * inset_mm).size());
    return 2 * inset_mm + small_cap_mm * (1 + line_pitch * static_cast<double>(most - 1));
  }

  tables::Shown table_;
};

/// In as many parts as it takes for none to be wider than that, each with the test's name.
std::vector<tables::Shown> parts_of(const tables::Shown& table, const Canvas& canvas, double width_mm) {
  std::vector<std::vector<std::size_t>> parts;
  for (std::size_t c = 0; c < table.headings.size(); ++c) {
    const auto wider = [&] {
      auto part = parts.back();
      part.push_back(c);
      return Record(of_columns(table, part, 0, 2)).least_width(canvas) > width_mm;
    };
    if (parts.empty())
      parts.emplace_back();
    else if (wider())
      parts.push_back({0});
    parts.back().push_back(c);
  }
  std::vector<tables::Shown> all;
  for (std::size_t i = 0; i < parts.size(); ++i) all.push_back(of_columns(table, parts[i], i, parts.size()));
  return all;
}

void put_record(Pages& pages, const Table& table, const Style& style, const Font& font) {
  Drawing scratch;
  for (const tables::Shown& part :
       parts_of(tables::shown(table, style), Canvas(scratch, font), pages.field().width())) {
    const Record record(part);
    pages.put({[record](const Canvas& canvas) { return record.least_width(canvas); },
               [record](const Canvas& canvas, double width_mm) { return record.height(canvas, width_mm); },
               [record](const Canvas& canvas, Paper at, double width_mm) { record.draw(canvas, at, width_mm); },
               part.title});
  }
}

void compose(const Dossier& dossier, const Style& style, const Office& office, std::vector<Body>& out) {
  Pages pages(dossier, office, out);
  pages.begin({"Unmanned tests: record", "Test record", "none", {}},
              {pages.above_title_block(), pages.columns().back()});
  put_record(pages, tables::trial_hand_record(dossier, style), style, office.font);
  put_record(pages, tables::trial_mass_record(dossier, style), style, office.font);
  pages.put(block_of(Paragraphs(
      "NOTES",
      {{"–", "Write every number with its unit, and how far it may be off, as it is read; never what it should be.",
        Layer::notes},
       {"–",
        "Travel counts from the brake trolley's rest mark toward the landing; wind along the line is positive "
        "toward the landing.",
        Layer::notes},
       {"–", "A test that was not made, or of which a number is missing, is not passed.", Layer::notes}},
      {small_cap_mm})));
  pages.put(block_of(Paragraphs(
      "SIGNED",
      {{"", "Tests led by, qualification, date: ____________________________________________", Layer::notes},
       {"", "Released for the next step by, date: __________________________________________", Layer::notes}},
      {note_cap_mm})));
}

}  // namespace

const SheetKind trial_record_sheet{"trial-record", applies, compose};

}  // namespace fairlead::sheets

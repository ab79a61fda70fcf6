// The drawing set: which sheets there are, and what every one of them carries whatever it shows.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/tasks/work.hpp"
#include "report/dossier.hpp"
#include "report/drawing/canvas.hpp"

namespace fairlead::sheets {

/// Paper and the projection its readers expect: first angle on ISO's sizes, third angle on ANSI's. A4 and ANSI A, which
/// is letter, stand upright, and the title block takes all their width.
enum class PaperSize { a1, a2, a3, a4, ansi_a, ansi_b, ansi_c, ansi_d };

/// What a drawing is made with besides what it shows.
struct Office {
  const drawing::Font& font;
  PaperSize paper = PaperSize::a3;
  /// In place of the projection the paper's readers expect.
  std::optional<bool> first_angle{};
  /// Of the general arrangement, of ISO 5455's series; else the greatest there is room for.
  std::optional<double> scale{};
  bool grey{};                           ///< without colour
  std::vector<std::string_view> more{};  ///< titles of the sheets behind the one that carries the set's index
  std::string_view first{};              ///< title of the set's first sheet, where another carries the index
  Work work{};                           ///< the set does not depend on it
};

/// What of a centring mark lies inside the frame; and what a sheet keeps from its end: the mark's own width, and half
/// of the widest line that borders a table.
inline constexpr double centring_mark_mm = 5, centring_gap_mm = drawing::extra_mm + drawing::wide_mm / 2;

/// A paper size in millimetres, and where things go on it. Laid out after ISO 5457.
struct Stationery {
  std::string_view name;
  double width_mm{}, height_mm{};
  bool first_angle{};
  drawing::Box frame;  ///< the frame line: 20 mm left, 10 mm elsewhere

  /// Where a sheet may draw: inside the frame, clear of the centring marks' ends.
  drawing::Box field() const { return frame.grown(-(centring_mark_mm + centring_gap_mm)); }
};
inline constexpr PaperSize paper_sizes[] = {PaperSize::a4,     PaperSize::a3,     PaperSize::a2,     PaperSize::a1,
                                            PaperSize::ansi_a, PaperSize::ansi_b, PaperSize::ansi_c, PaperSize::ansi_d};
Stationery stationery(PaperSize);
/// The same with the projection the office draws in.
Stationery stationery(const Office&);

/// A sheet before its number is known: what it shows, for the title block.
struct Body {
  std::string title;               ///< "General arrangement"
  std::string_view document_type;  ///< of ISO 7200: "Arrangement drawing"
  std::string scale;               ///< "1:100"; "none" where nothing is to scale
  drawing::Drawing drawing;
  std::vector<std::string> left_out{};  ///< sentences: what finds no room on this paper, and where it does
};

struct SheetKind {
  std::string_view name;
  bool (*applies)(const Dossier&);
  void (*compose)(const Dossier&, const Style&, const Office&, std::vector<Body>&);
};
std::span<const SheetKind* const> all_sheets();  ///< sheets/list.cpp: the only list

/// Every sheet that applies, numbered, with frame and title block. `only`: the sheet of that name alone.
std::vector<drawing::Sheet> compose(const Dossier&, const Style&, const Office&,
                                    std::optional<std::string_view> only = {});

/// The scales a general arrangement may have, 50 for 1:50, the greatest first: ISO 5455's series.
std::span<const double> arrangement_scales();

/// What a crew takes up the pole, in grey: one A4 page an anchor with every mark that is set out there, one of the
/// marks on the main line, a further one where a page does not hold it all. Letter where the office draws on ANSI
/// sizes.
std::vector<drawing::Sheet> compose_crew(const Dossier&, const Style&, const Office&);

}  // namespace fairlead::sheets

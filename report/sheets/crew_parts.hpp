// What crew pages are made of: parts across the page, each measured before it is set. Lettered to be read on a pole.
#pragma once

#include <functional>

#include "geometry/studies/lie.hpp"
#include "report/dossier.hpp"
#include "report/drawing/canvas.hpp"
#include "report/views/offset_sketch.hpp"

namespace fairlead::sheets::crew {

/// The least lettering of a crew page, what names a mark, numbers, and what names a page.
inline constexpr double cap_mm = drawing::heading_cap_mm, name_cap_mm = drawing::title_cap_mm, number_cap_mm = 7,
                        greatest_number_cap_mm = 10, id_cap_mm = 14;

/// Takes the whole width of the page.
struct Part {
  std::function<double(const drawing::Canvas&, double width_mm)> height;
  std::function<void(const drawing::Canvas&, const drawing::Box&)> draw;
};

/// What a page is called, large, and beside it what stands there.
Part heading(std::string id, std::string mark, std::vector<std::string> there);

/// A number to set out by, and room beneath it for the one that was measured.
struct Entry {
  std::string caption, number;
};
/// All entries of a row are of one size, the greatest that fits. `name`, `words`: what they belong to; may be empty.
/// `beneath`: coordinates.
Part entries(std::string name, std::string words, std::vector<Entry>, std::string beneath, double greatest_cap_mm);

Part text(std::string heading, std::vector<std::string> sentences);

/// Parts that stay on one page, one below the other.
Part together(std::vector<Part>);

/// A ruled table of names and numbers; every row has as many cells as there are headings.
Part table(const std::vector<std::string>& headings, std::vector<std::vector<std::string>> rows);

/// Both sketches side by side.
Part sketches(std::vector<views::SketchedMark>, bool falls, const Style&);

/// The main line's supports and what is marked between them; the first and the last are the supports.
Part main_line_sketch(std::vector<views::MarkOnLine>);

/// A direction in plan as a bold arrow, beside the main line as a thin one, and its lie in words.
struct Turned {
  std::string name;
  std::vector<std::string> words;
  Vec3 direction;  ///< site frame, unit
  bool axle{};     ///< drawn through, with the sheave square to it
};
/// At most two, side by side.
Part lies(std::vector<Turned>, const Frame&, const std::string& y_axis);

/// Who set it out and who checked it, to be written in.
Part signatures();

}  // namespace fairlead::sheets::crew

// The lettered parts of an arrangement sheet, each measured before it is placed.
#pragma once

#include <functional>

#include "report/drawing/blocks.hpp"
#include "report/sheets/sheet.hpp"
#include "report/views/scene.hpp"

namespace fairlead::sheets {

/// Something that takes a width, no less than its least, and says what height it then needs.
struct Block {
  std::function<double(const drawing::Canvas&)> least_width;
  std::function<double(const drawing::Canvas&, double width_mm)> height;
  std::function<void(const drawing::Canvas&, drawing::Paper top_left, double width_mm)> draw;
  std::string name = "a figure";  ///< by which it is told where it finds no room
  /// Where it can be parted: parts of it that are no wider, where there are any.
  std::function<std::vector<Block>(const drawing::Canvas&, double width_mm)> parted{};
};

/// The hyphen before every number of a text as the longer minus that a drawing can be read by.
std::string with_minus(std::string number);

/// A temperature as drawings write it: "12.0 °C".
std::string degrees(double kelvin, const Style&);

Block block_of(drawing::Paragraphs);
Block block_of(drawing::Grid, drawing::Paragraphs beneath);
/// "POINTS, columns 2 of 3": the title of a part of a table's columns.
std::string title_of_part(const std::string& title, std::size_t part, std::size_t parts);

/// Where everything stands and what every anchor carries, one row a point; beneath it the load cases by their letters.
Block setting_out_and_loads(const Dossier&, const Style&);
/// The verdict in the words of every other report, then what did not pass, in full or by name, then what passed by
/// name. In between: in full what failed or is undetermined, by name what nobody set a limit for. What was waived
/// always in full.
enum class Saying { in_full, faults_in_full, by_name };
Block findings_summary(const Dossier&, const Style&, Saying);
/// What the views show and how their figures are meant, and the index of the set; `key`: the texts of the numbered
/// balloons.
Block notes(const Dossier&, const Style&, const views::Scene&, const Office&, const std::vector<std::string>& key,
            const drawing::Typography&);
/// The texts of the numbered balloons alone.
Block balloons(const std::vector<std::string>& key);
/// Why lines are missing of a scene's views; "" where none is.
std::string not_drawn(const views::Scene&);
/// What stands on the views as a sign, whatever its size.
std::string drawn_as_symbols(const Layout&);
Block cautions(const drawing::Typography&);
/// What the verdict does not cover.
Block not_looked_at(const drawing::Typography&);
/// Samples of the line types and symbols.
Block legend(const views::Scene&);

}  // namespace fairlead::sheets

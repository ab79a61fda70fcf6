// A sheet with everything a display list may hold, for what is written to be read back and held against it.
#pragma once

#include <cmath>

#include "report/drawing/canvas.hpp"
#include "report/drawing/symbols.hpp"
#include "report/formats/document.hpp"

namespace fairlead::formats {

inline const drawing::Font& font() {
  static const drawing::Font opened = drawing::Font::open().value();
  return opened;
}

inline DocumentInfo info() {
  return {"HG-L2-ARR Línea 2 <a & b>", "M. Okafor", "layout a.toml, SHA-256 0123", "", "fairlead 0.1.0",
          Date{2026, 10, 30}};
}

/// A level line of 10 m of site in a view of 1:50 comes first: 200 mm, from 100 to 300 at 150 of the sheet's height.
/// Every line type, fill and outline, open and closed, pale and upright text, and characters that formats escape.
inline drawing::Sheet every_primitive(double scale = 50) {
  using namespace drawing;
  Sheet sheet{"Measured Ø", 420, 297, {}};
  const Canvas canvas(sheet.drawing, font());
  const View view{"elevation", {1, 0, 0}, {0, 0, 1}, {100, 0, 50}, {100, 150}, scale};
  sheet.drawing.views.push_back(view);
  canvas.line({view.of(Point3{100, 0, 50}), view.of(Point3{110, 0, 50})},
              {extra_mm, LineType::continuous, Layer::main_line});
  for (const LineType type :
       {LineType::dashed, LineType::dash_dot, LineType::dash_double_dot, LineType::long_dash_short_dash})
    canvas.line({{50, 50 + 5 * static_cast<double>(type)}, {100, 50 + 5 * static_cast<double>(type)}, {150, 40}},
                {narrow_mm, type, Layer::envelope});
  canvas.line({{160, 50}, {161, 50}}, {narrow_mm, LineType::dashed, Layer::envelope});  // too short for its type
  canvas.box({20, 10, 410, 287}, {wide_mm, LineType::continuous, Layer::title_block});
  canvas.area({{60, 60}, {70, 60}, {65, 70}}, Layer::loads);
  canvas.outline({{80, 60}, {90, 60}, {85, 70}}, {hair_mm, LineType::continuous, Layer::structure}, Fill::tint);
  canvas.circle({200, 100}, 5, {medium_mm, LineType::dash_dot, Layer::sheaves}, Fill::paper);
  canvas.text({60, 100}, "Żółć Ø16, 10.000 m ≤ Σ", 3.5, Layer::text);
  canvas.text({60, 120}, "upright", 5, Layer::notes, Align::left, std::acos(-1) / 2);
  canvas.text({60, 140}, R"(<a> & "b" 'c' \P %%d ^J 5 %)", 2.5, Layer::notes);
  sheet.drawing.entities.push_back(Label{{90, 200}, 5, 0.3, "UNTESTED", Layer::cautions, true});
  canvas.text({300, 200}, "last", 1.8, Layer::main_line);
  return sheet;
}

}  // namespace fairlead::formats

#include "report/formats/document.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace fairlead::formats {

using namespace drawing;

namespace {

bool finite(Paper p) { return std::isfinite(p.x_mm) && std::isfinite(p.y_mm); }

bool finite(const Label& label) {
  return finite(label.at) && std::isfinite(label.cap_mm) && std::isfinite(label.angle_rad);
}

bool finite(const Stroke& stroke) {
  if (!std::isfinite(stroke.pen.width_mm)) return false;
  for (const Paper p : stroke.path)
    if (!finite(p)) return false;
  return true;
}

/// What is wrong with a text; empty where nothing is.
std::string fault(const Sheet& sheet, const Label& label, const Font& font) {
  if (const std::string code = font.missing(label.text); !code.empty())
    return fmt::format("sheet \"{}\": \"{}\" holds {}, which the font {} does not have", sheet.title, label.text, code,
                       font.path());
  for (const char32_t c : code_points(label.text))
    if (c > 0xFFFF)
      return fmt::format("sheet \"{}\": \"{}\" holds U+{:04X}, which cannot be written to a drawing here", sheet.title,
                         label.text, static_cast<std::uint32_t>(c));
  return {};
}

}  // namespace

tl::expected<std::set<char32_t>, Refusal> characters(const std::vector<Sheet>& sheets, const Font& font) {
  std::set<char32_t> all;
  for (const Sheet& sheet : sheets) {
    bool measurable = finite(Paper{sheet.width_mm, sheet.height_mm});
    for (const auto& entity : sheet.drawing.entities) {
      if (const auto* stroke = std::get_if<Stroke>(&entity)) {
        measurable = measurable && finite(*stroke);
        continue;
      }
      const Label& label = std::get<Label>(entity);
      measurable = measurable && finite(label);
      bool any_new = false;
      for (const char32_t c : code_points(label.text)) any_new = all.insert(c).second || any_new;
      if (!any_new) continue;  // what was looked at once is not looked up again
      if (std::string why = fault(sheet, label, font); !why.empty()) return tl::unexpected(Refusal{std::move(why)});
    }
    if (!measurable) return tl::unexpected(Refusal{"a drawing holds a number that is not finite"});
  }
  return all;
}

std::string number(double value, int decimals) {
  char digits[400];  // the longest double in fixed notation
  const auto end = std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed, decimals).ptr;
  std::string text(digits, end);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace fairlead::formats

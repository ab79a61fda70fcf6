#include "report/formats/svg.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace fairlead::formats {

using namespace drawing;

namespace {

constexpr double between_mm = 10;  // sheets of one file
constexpr int decimals = 4;        // of a millimetre: a tenth of a micrometre

std::string mm(double value) { return number(value, decimals); }

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string hex(Colour c) {
  const auto byte = [](double share) { return static_cast<int>(std::lround(255 * share)); };
  return fmt::format("#{:02x}{:02x}{:02x}", byte(c.red), byte(c.green), byte(c.blue));
}

constexpr double tint = 0.9, pale = 0.82;  // as the other formats have them
Colour grey(double share) { return {share, share, share}; }

/// Writes one sheet, y turned downward.
class Page {
 public:
  Page(std::string& out, const Sheet& sheet, const Font& font) : out_(out), sheet_(sheet), font_(font) {}

  void write() {
    std::optional<Layer> open;
    for (const auto& entity : sheet_.drawing.entities) {
      const auto* stroke = std::get_if<Stroke>(&entity);
      const Layer layer = stroke ? stroke->pen.layer : std::get<Label>(entity).layer;
      if (open != layer) {
        if (open) out_ += "</g>\n";
        const std::string ink = hex(ink_of(layer));
        out_ += fmt::format("<g class=\"{}\" fill=\"{}\" stroke=\"{}\">\n", layer_name(layer), ink, ink);
        open = layer;
      }
      stroke ? write(*stroke) : write(std::get<Label>(entity));
    }
    if (open) out_ += "</g>\n";
  }

 private:
  Colour ink_of(Layer layer) const { return sheet_.grey ? grey_of(layer_colour(layer)) : layer_colour(layer); }
  std::string x(Paper p) const { return mm(p.x_mm); }
  std::string y(Paper p) const { return mm(sheet_.height_mm - p.y_mm); }

  void write(const Stroke& stroke) {
    const bool outlined = stroke.pen.width_mm > 0, filled = stroke.fill != Fill::none;
    if (stroke.path.size() < 2 || (!outlined && !filled)) return;
    out_ += "<path d=\"M";
    for (std::size_t i = 0; i < stroke.path.size(); ++i)
      out_.append(i ? " " : "").append(x(stroke.path[i])).append(",").append(y(stroke.path[i]));
    out_ += stroke.closed ? "Z\"" : "\"";
    if (!filled) out_ += " fill=\"none\"";
    if (stroke.fill == Fill::tint) out_ += fmt::format(" fill=\"{}\"", hex(grey(tint)));
    if (stroke.fill == Fill::paper) out_ += " fill=\"#ffffff\"";
    if (outlined) {
      out_ += fmt::format(" stroke-width=\"{}\"", mm(stroke.pen.width_mm));
      std::string dash;
      for (const double d : dashes(stroke.pen.type, stroke.pen.width_mm, path_length(stroke.path, stroke.closed)))
        dash.append(dash.empty() ? "" : " ").append(mm(d));
      if (!dash.empty()) out_ += fmt::format(" stroke-dasharray=\"{}\"", dash);
    } else {
      out_ += " stroke=\"none\"";
    }
    out_ += "/>\n";
  }

  void write(const Label& label) {
    out_ += fmt::format(
        "<text x=\"{}\" y=\"{}\" font-size=\"{}\" textLength=\"{}\" "
        "lengthAdjust=\"spacingAndGlyphs\" stroke=\"none\"",
        x(label.at), y(label.at), mm(label.cap_mm / font_.cap_em()), mm(font_.width_mm(label.text, label.cap_mm)));
    if (label.pale) out_ += fmt::format(" fill=\"{}\"", hex(grey(pale)));
    if (label.angle_rad != 0)
      out_ += fmt::format(" transform=\"rotate({} {} {})\"", mm(-label.angle_rad * 180 / std::numbers::pi), x(label.at),
                          y(label.at));
    out_.append(">").append(escaped(label.text)).append("</text>\n");
  }

  std::string& out_;
  const Sheet& sheet_;
  const Font& font_;
};

/// Names a font as a style sheet has it; one that holds a quote is not named.
std::string families(const Font& font) {
  std::string names;
  for (const std::string& name : {font.face(), font.family()})
    if (!name.empty() && name.find_first_of("'\"\\") == std::string::npos)
      names += fmt::format("'{}', ", escaped(name));
  return names + "sans-serif";
}

}  // namespace

tl::expected<std::string, Refusal> svg(const std::vector<Sheet>& sheets, const Font& font, const DocumentInfo& info) {
  if (const auto used = characters(sheets, font); !used) return tl::unexpected(used.error());
  double width = 0, height = -between_mm;
  for (const Sheet& sheet : sheets) {
    width = std::max(width, sheet.width_mm);
    height += sheet.height_mm + between_mm;
  }
  if (!(width > 0 && height > 0)) return tl::unexpected(Refusal{"there is no sheet to draw"});

  std::string title = info.title;
  if (sheets.size() == 1) title.append(": ").append(sheets.front().title);
  std::string about = info.subject + "; " + info.program;
  if (info.date) about += fmt::format("; {:04}-{:02}-{:02}", info.date->year, info.date->month, info.date->day);
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n"
      "<title>{2}</title>\n<desc>{3}</desc>\n",
      mm(width), mm(height), escaped(title), escaped(about));
  out += fmt::format("<g font-family=\"{}\" stroke-linejoin=\"round\" xml:space=\"preserve\">\n", families(font));
  double top = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const Sheet& sheet = sheets[i];
    out += fmt::format("<g id=\"sheet-{}\" aria-label=\"{}\"", i + 1, escaped(sheet.title));
    if (top > 0) out += fmt::format(" transform=\"translate(0 {})\"", mm(top));
    out += fmt::format(">\n<rect width=\"{}\" height=\"{}\" fill=\"#ffffff\"/>\n", mm(sheet.width_mm),
                       mm(sheet.height_mm));
    Page(out, sheet, font).write();
    out += "</g>\n";
    top += sheet.height_mm + between_mm;
  }
  return out + "</g>\n</svg>\n";
}

}  // namespace fairlead::formats

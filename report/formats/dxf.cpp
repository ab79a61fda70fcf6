#include "report/formats/dxf.hpp"

#include <cmath>
#include <numbers>

#include "report/formats/dxf_frame.hpp"

namespace fairlead::formats {

using namespace drawing;

namespace {

constexpr int by_layer = 256, tint = 254, pale = 9, paper = 255;

/// Name and scale of a line's type: the lengths of the pattern times the scale are what `dashes` asks for.
struct Dashing {
  const char* name = "Continuous";
  double scale = 1;
};
Dashing dashing_of(const Stroke& stroke) {
  const auto lengths = dashes(stroke.pen.type, stroke.pen.width_mm, path_length(stroke.path, stroke.closed));
  if (lengths.empty()) return {};
  for (const DxfPattern& pattern : dxf_patterns())
    if (pattern.type == stroke.pen.type) return {pattern.name, lengths.front() / pattern.lengths.front()};
  return {};
}

class Document {
 public:
  Document(const std::vector<Sheet>& sheets, const Font& font, const DocumentInfo& info)
      : sheets_(sheets), font_(font), info_(info) {}

  std::string text() {
    section("TABLES", [&] { frame_.tables(); });
    section("BLOCKS", [&] { frame_.blocks(); });
    section("ENTITIES", [&] { entities(); });
    section("OBJECTS", [&] { frame_.objects(); });
    out_.put(0, "EOF");
    // The header comes first and tells the first handle nobody has taken.
    std::string body = std::move(out_.text());
    out_.text().clear();
    for (const std::string& comment : {info_.title, info_.subject, info_.program}) out_.words(999, comment);
    section("HEADER", [&] { frame_.header(); });
    section("CLASSES", [] {});
    return std::move(out_.text()) + body;
  }

 private:
  template <class Content>
  void section(const char* name, Content content) {
    out_.put(0, "SECTION");
    out_.put(2, name);
    content();
    out_.put(0, "ENDSEC");
  }

  void entities() {
    shift_ = {0, 0};
    for (const Sheet& sheet : sheets_) {
      grey_ = sheet.grey;
      for (const auto& entity : sheet.drawing.entities) std::visit([&](const auto& one) { draw(one); }, entity);
      shift_.x_mm += sheet.width_mm + dxf_between_mm;
    }
  }

  void entity(const char* kind, Layer layer, int colour) {
    out_.put(0, kind);
    out_.handle(5, out_.new_handle());
    out_.handle(330, frame_.model());
    out_.put(100, "AcDbEntity");
    out_.put(8, layer_name(layer));
    if (colour == by_layer && grey_) colour = dxf_ink;
    if (colour != by_layer) out_.put(62, colour);
  }

  void draw(const Stroke& stroke) {
    if (stroke.path.size() < 2) return;
    if (stroke.fill != Fill::none) fill(stroke);
    if (!(stroke.pen.width_mm > 0)) return;
    entity("LWPOLYLINE", stroke.pen.layer, by_layer);
    const Dashing dashing = dashing_of(stroke);
    out_.put(6, dashing.name);
    out_.put(370, static_cast<int>(std::lround(100 * stroke.pen.width_mm)));
    out_.real(48, dashing.scale);
    out_.put(100, "AcDbPolyline");
    out_.put(90, static_cast<int>(stroke.path.size()));
    constexpr int closed = 1, dashed_across_corners = 128;
    out_.put(70, dashed_across_corners + (stroke.closed ? closed : 0));
    out_.real(43, 0);
    for (const Paper p : stroke.path) out_.point(10, p + shift_);
  }

  void fill(const Stroke& stroke) {
    entity("HATCH", stroke.pen.layer, stroke.fill == Fill::ink ? by_layer : stroke.fill == Fill::tint ? tint : paper);
    out_.put(100, "AcDbHatch");
    out_.point3(10, {0, 0});
    out_.point(210, {0, 0}), out_.real(230, 1);
    out_.put(2, "SOLID");
    out_.put(70, 1);  // solid
    out_.put(71, 0);
    out_.put(91, 1);  // one boundary
    constexpr int external = 1, polyline = 2;
    out_.put(92, external + polyline);
    out_.put(72, 0);
    out_.put(73, 1);
    out_.put(93, static_cast<int>(stroke.path.size()));
    for (const Paper p : stroke.path) out_.point(10, p + shift_);
    out_.put(97, 0);
    out_.put(75, 0);
    out_.put(76, 1);
    out_.put(98, 0);
  }

  /// Fitted between the two ends of its baseline, so that no other font makes it wider.
  void draw(const Label& label) {
    const Paper from = label.at + shift_, to = from + polar(font_.width_mm(label.text, label.cap_mm), label.angle_rad);
    entity("TEXT", label.layer, label.pale ? pale : by_layer);
    out_.put(100, "AcDbText");
    out_.point3(10, from);
    out_.real(40, label.cap_mm);
    out_.words(1, label.text);
    out_.real(50, label.angle_rad * 180 / std::numbers::pi);
    out_.put(7, dxf_text_style);
    constexpr int fitted = 5;
    out_.put(72, fitted);
    out_.point3(11, to);
    out_.put(100, "AcDbText");
  }

  const std::vector<Sheet>& sheets_;
  const Font& font_;
  const DocumentInfo& info_;
  DxfPairs out_;
  DxfFrame frame_{out_, sheets_, font_};
  Paper shift_;        ///< of the sheet being written
  bool grey_ = false;  ///< likewise
};

}  // namespace

tl::expected<std::string, Refusal> dxf(const std::vector<Sheet>& sheets, const Font& font, const DocumentInfo& info) {
  if (const auto used = characters(sheets, font); !used) return tl::unexpected(used.error());
  if (sheets.empty()) return tl::unexpected(Refusal{"there is no sheet to draw"});
  return Document(sheets, font, info).text();
}

}  // namespace fairlead::formats

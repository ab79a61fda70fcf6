#include "report/formats/pdf.hpp"

#include <fmt/format.h>
#include <hpdf.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <set>

namespace fairlead::formats {

namespace {

using namespace drawing;

constexpr double point_per_mm = 72 / 25.4;

/// Raised inside this file only; `pdf` turns it into its result.
struct Refused {
  std::string why;
};

constexpr int decimals = 4;  // of a millimetre: a tenth of a micrometre

HPDF_REAL real(double value) {
  if (!std::isfinite(value)) throw Refused{"a drawing holds a number that is not finite"};
  return static_cast<HPDF_REAL>(value);
}

/// libharu's own map of codes to characters is not valid; codes are UTF-16 here, so a character maps to itself.
std::string unicode_map(const std::set<char32_t>& characters) {
  std::string out =
      "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
      "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
  const std::vector<char32_t> codes(characters.begin(), characters.end());
  constexpr std::size_t most = 100;  // entries a section may hold
  for (std::size_t i = 0; i < codes.size(); i += most) {
    const std::size_t end = std::min(i + most, codes.size());
    out += fmt::format("{} beginbfrange\n", end - i);
    for (std::size_t k = i; k < end; ++k)
      out += fmt::format("<{0:04X}> <{0:04X}> <{0:04X}>\n", static_cast<std::uint32_t>(codes[k]));
    out += "endbfrange\n";
  }
  return out + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
}

class Document {
 public:
  Document(const std::vector<Sheet>& sheets, const std::set<char32_t>& used, const Font& font, const DocumentInfo& info)
      : pdf_(HPDF_New(nullptr, nullptr), HPDF_Free), metrics_(font) {
    if (!pdf_) throw Refused{"libharu has no memory for a document"};
    HPDF_SetCompressionMode(pdf_.get(), HPDF_COMP_ALL);
    HPDF_UseUTFEncodings(pdf_.get());
    HPDF_SetCurrentEncoder(pdf_.get(), "UTF-8");
    describe(info);
    load_font(used);
    add_layers();
    for (const Sheet& sheet : sheets) add_page(sheet);
    for (std::size_t i = 0; i < sheets.size(); ++i) add_links(sheets[i], pages_[i]);
    HPDF_SetPageMode(pdf_.get(), HPDF_PAGE_MODE_USE_OUTLINE);
    // Without it a viewer's "fit to page" falsifies every scale.
    HPDF_SetViewerPreference(pdf_.get(), HPDF_PRINT_SCALING_NONE);
  }

  std::string bytes() const {
    HPDF_SaveToStream(pdf_.get());
    check("the document");
    std::string out(HPDF_GetStreamSize(pdf_.get()), '\0');
    auto size = static_cast<HPDF_UINT32>(out.size());
    HPDF_ResetStream(pdf_.get());
    HPDF_ReadFromStream(pdf_.get(), reinterpret_cast<HPDF_BYTE*>(out.data()), &size);
    check("the document");
    if (size != out.size()) throw Refused{"libharu gave back less than it wrote"};
    return out;
  }

 private:
  /// libharu keeps its first error and does nothing more; asked for here where there is something to say about it.
  void check(const std::string& what) const {
    if (const HPDF_STATUS code = HPDF_GetError(pdf_.get()); code != HPDF_OK)
      throw Refused{
          fmt::format("libharu refuses {}: error 0x{:04X}, detail {}", what, code, HPDF_GetErrorDetail(pdf_.get()))};
  }

  void describe(const DocumentInfo& info) const {
    const std::pair<HPDF_InfoType, const std::string&> words[] = {{HPDF_INFO_TITLE, info.title},
                                                                  {HPDF_INFO_AUTHOR, info.author},
                                                                  {HPDF_INFO_SUBJECT, info.subject},
                                                                  {HPDF_INFO_KEYWORDS, info.keywords},
                                                                  {HPDF_INFO_CREATOR, info.program}};
    for (const auto& [type, text] : words)
      if (!text.empty()) HPDF_SetInfoAttr(pdf_.get(), type, text.c_str());
    if (!info.date) return;
    const HPDF_Date date{info.date->year, info.date->month, info.date->day, 0, 0, 0, 'Z', 0, 0};
    HPDF_SetInfoDateAttr(pdf_.get(), HPDF_INFO_CREATION_DATE, date);
    HPDF_SetInfoDateAttr(pdf_.get(), HPDF_INFO_MOD_DATE, date);
  }

  void load_font(const std::set<char32_t>& used) {
    const char* name = HPDF_LoadTTFontFromFile(pdf_.get(), metrics_.path().c_str(), HPDF_TRUE);
    check("the font " + metrics_.path());
    font_ = HPDF_GetFont(pdf_.get(), name, "UTF-8");
    check("the font " + metrics_.path());
    // libharu embeds the parts of a composite glyph to one depth only, so parts of parts are marked here.
    const auto fontdef = static_cast<HPDF_FontAttr>(font_->attr)->fontdef;
    const auto ttf = static_cast<HPDF_TTFontDefAttr>(fontdef->attr);
    const auto mark = [&](unsigned glyph) {
      if (glyph < ttf->num_glyphs) ttf->glyph_tbl.flgs[glyph] = 1;
    };
    for (char32_t c : used) {
      mark(metrics_.glyph(c));
      for (unsigned part : metrics_.parts(metrics_.glyph(c))) mark(part);
    }
    auto* map = static_cast<HPDF_Dict>(HPDF_Dict_GetItem(font_, "ToUnicode", HPDF_OCLASS_DICT));
    if (!map) throw Refused{"libharu gave the font no map to Unicode"};
    HPDF_MemStream_FreeData(map->stream);
    HPDF_Stream_WriteStr(map->stream, unicode_map(used).c_str());
  }

  /// One optional-content group a layer, listed in the catalog in a fixed order, all shown.
  void add_layers() {
    const HPDF_MMgr memory = pdf_->mmgr;
    const HPDF_Array all = HPDF_Array_New(memory), order = HPDF_Array_New(memory);
    for (int i = 0; i < layer_count; ++i) {
      const HPDF_Dict group = HPDF_Dict_New(memory);
      HPDF_Xref_Add(pdf_->xref, group);
      HPDF_Dict_AddName(group, "Type", "OCG");
      HPDF_Dict_Add(group, "Name",
                    HPDF_String_New(memory, std::string(layer_name(static_cast<Layer>(i))).c_str(), nullptr));
      HPDF_Array_Add(all, group);
      HPDF_Array_Add(order, group);
      groups_[static_cast<std::size_t>(i)] = group;
    }
    const HPDF_Dict shown = HPDF_Dict_New(memory), properties = HPDF_Dict_New(memory);
    HPDF_Dict_Add(shown, "Order", order);
    HPDF_Dict_Add(properties, "OCGs", all);
    HPDF_Dict_Add(properties, "D", shown);
    HPDF_Dict_Add(pdf_->catalog, "OCProperties", properties);
    // Optional content came with PDF 1.5.
    if (pdf_->pdf_version < HPDF_VER_15) pdf_->pdf_version = HPDF_VER_15;
  }

  void add_page(const Sheet& sheet) {
    grey_ = sheet.grey;
    const HPDF_Page page = HPDF_AddPage(pdf_.get());
    check("another page");
    pages_.push_back(page);
    HPDF_Page_SetWidth(page, real(sheet.width_mm * point_per_mm));
    HPDF_Page_SetHeight(page, real(sheet.height_mm * point_per_mm));

    const HPDF_Dict properties = HPDF_Dict_New(pdf_->mmgr);
    for (std::size_t i = 0; i < layer_count; ++i) HPDF_Dict_Add(properties, fmt::format("L{}", i).c_str(), groups_[i]);
    auto* resources = static_cast<HPDF_Dict>(HPDF_Page_GetInheritableItem(page, "Resources", HPDF_OCLASS_DICT));
    HPDF_Dict_Add(resources, "Properties", properties);

    // Written here for its digits: libharu's five decimals are 0.3 um off at 200 mm.
    raw(page, fmt::format("{0:.9f} 0 0 {0:.9f} 0 0 cm\n", point_per_mm));
    HPDF_Page_SetLineCap(page, HPDF_BUTT_END);
    HPDF_Page_SetLineJoin(page, HPDF_ROUND_JOIN);
    draw(page, sheet.drawing);

    const HPDF_Outline mark = HPDF_CreateOutline(pdf_.get(), nullptr, std::string(metrics_.said(sheet.title)).c_str(),
                                                 HPDF_GetEncoder(pdf_.get(), "UTF-8"));
    const HPDF_Destination whole = HPDF_Page_CreateDestination(page);
    HPDF_Destination_SetFit(whole);
    HPDF_Outline_SetDestination(mark, whole);
    check("the sheet \"" + sheet.title + "\"");
  }

  /// Once there are pages for them to lead to.
  void add_links(const Sheet& sheet, HPDF_Page page) const {
    for (const Link& link : sheet.drawing.links) {
      if (link.sheet >= pages_.size())
        throw Refused{
            fmt::format("sheet \"{}\": a link leads to sheet {} of {}", sheet.title, link.sheet + 1, pages_.size())};
      const HPDF_Rect place{real(link.lower_left.x_mm * point_per_mm), real(link.lower_left.y_mm * point_per_mm),
                            real(link.upper_right.x_mm * point_per_mm), real(link.upper_right.y_mm * point_per_mm)};
      const HPDF_Destination whole = HPDF_Page_CreateDestination(pages_[link.sheet]);
      HPDF_Destination_SetFit(whole);
      const HPDF_Annotation annotation = HPDF_Page_CreateLinkAnnot(page, place, whole);
      HPDF_LinkAnnot_SetBorderStyle(annotation, 0, 0, 0);
    }
    check("the links of the sheet \"" + sheet.title + "\"");
  }

  static void raw(HPDF_Page page, const std::string& operators) {
    HPDF_Stream_WriteStr(static_cast<HPDF_PageAttr>(page->attr)->stream, operators.c_str());
  }

  void draw(HPDF_Page page, const Drawing& drawing) const {
    std::optional<Layer> open;
    for (const auto& entity : drawing.entities) {
      const auto* stroke = std::get_if<Stroke>(&entity);
      const Layer layer = stroke ? stroke->pen.layer : std::get<Label>(entity).layer;
      if (open != layer) {
        if (open) raw(page, "EMC\n");
        raw(page, fmt::format("/OC /L{} BDC\n", static_cast<int>(layer)));
        const Colour c = ink(layer);
        HPDF_Page_SetRGBStroke(page, real(c.red), real(c.green), real(c.blue));
        HPDF_Page_SetRGBFill(page, real(c.red), real(c.green), real(c.blue));
        open = layer;
      }
      if (stroke) {
        draw(page, *stroke);
      } else {
        draw(page, std::get<Label>(entity));
      }
    }
    if (open) raw(page, "EMC\n");
  }

  static constexpr HPDF_REAL pale_grey = 0.82F;  // seen from afar, and figures over it stay legible

  Colour ink(Layer layer) const { return grey_ ? grey_of(layer_colour(layer)) : layer_colour(layer); }

  /// Written here: libharu keeps dash lengths as 16-bit integers, too coarse for millimetres, and takes its time over
  /// every point.
  static std::string operators(const Stroke& stroke, bool outlined, bool filled) {
    std::string out;
    const auto put = [&](double value) {
      real(value);
      out += number(value, decimals) + ' ';
    };
    if (outlined) {
      put(stroke.pen.width_mm);
      out += "w\n[";
      for (double d : dashes(stroke.pen.type, stroke.pen.width_mm, path_length(stroke.path, stroke.closed))) put(d);
      out += "] 0 d\n";
    }
    for (std::size_t i = 0; i < stroke.path.size(); ++i) {
      put(stroke.path[i].x_mm);
      put(stroke.path[i].y_mm);
      out += i == 0 ? "m\n" : "l\n";
    }
    if (stroke.closed) out += "h\n";
    return out + (filled ? outlined ? "B\n" : "f\n" : "S\n");
  }

  void draw(HPDF_Page page, const Stroke& stroke) const {
    if (stroke.path.size() < 2) return;
    const bool outlined = stroke.pen.width_mm > 0, filled = stroke.fill != Fill::none;
    if (!outlined && !filled) return;
    if (stroke.fill == Fill::tint || stroke.fill == Fill::paper) {
      const HPDF_REAL grey = stroke.fill == Fill::tint ? 0.9F : 1.0F;
      HPDF_Page_SetRGBFill(page, grey, grey, grey);
    }
    raw(page, operators(stroke, outlined, filled));
    if (filled && stroke.fill != Fill::ink) {
      const Colour c = ink(stroke.pen.layer);
      HPDF_Page_SetRGBFill(page, real(c.red), real(c.green), real(c.blue));
    }
  }

  void draw(HPDF_Page page, const Label& label) const {
    if (label.pale) HPDF_Page_SetRGBFill(page, pale_grey, pale_grey, pale_grey);
    HPDF_Page_BeginText(page);
    HPDF_Page_SetFontAndSize(page, font_, real(label.cap_mm / metrics_.cap_em()));
    const double c = std::cos(label.angle_rad), s = std::sin(label.angle_rad);
    HPDF_Page_SetTextMatrix(page, real(c), real(s), real(-s), real(c), real(label.at.x_mm), real(label.at.y_mm));
    HPDF_Page_ShowText(page, label.text.c_str());
    HPDF_Page_EndText(page);
    if (!label.pale) return;
    const Colour c_ink = ink(label.layer);
    HPDF_Page_SetRGBFill(page, real(c_ink.red), real(c_ink.green), real(c_ink.blue));
  }

  std::unique_ptr<HPDF_Doc_Rec, void (*)(HPDF_Doc)> pdf_;
  const Font& metrics_;
  HPDF_Font font_{};
  std::array<HPDF_Dict, layer_count> groups_{};
  std::vector<HPDF_Page> pages_;
  bool grey_ = false;  ///< the page being written
};

}  // namespace

tl::expected<std::string, Refusal> pdf(const std::vector<Sheet>& sheets, const Font& font, const DocumentInfo& info) {
  const auto used = characters(sheets, font);
  if (!used) return tl::unexpected(used.error());
  try {
    return Document(sheets, *used, font, info).bytes();
  } catch (const Refused& refused) {
    return tl::unexpected(Refusal{refused.why});
  }
}

}  // namespace fairlead::formats

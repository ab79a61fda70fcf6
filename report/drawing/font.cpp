#include "report/drawing/font.hpp"

#include <fmt/format.h>
#include <ft2build.h>

#include <algorithm>
#include FT_FREETYPE_H
#include FT_ADVANCES_H
#include FT_GLYPH_H

namespace fairlead::drawing {

namespace {

constexpr char32_t no_character = 0xFFFFFFFF;

FT_Face face_of(const std::shared_ptr<void>& face) { return static_cast<FT_Face>(face.get()); }

std::shared_ptr<void> open_face(const std::string& path) {
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) return nullptr;
  FT_Face face = nullptr;
  if (FT_New_Face(library, path.c_str(), 0, &face) != 0) {
    FT_Done_FreeType(library);
    return nullptr;
  }
  return {face, [library](void* p) {
            FT_Done_Face(static_cast<FT_Face>(p));
            FT_Done_FreeType(library);
          }};
}

/// Length of the UTF-8 sequence a byte begins, 0 if it begins none, and the bits it contributes.
struct Lead {
  int length{};
  char32_t bits{};
};
Lead lead(unsigned char byte) {
  if (byte < 0x80) return {1, byte};
  if (byte >= 0xC2 && byte < 0xE0) return {2, byte & 0x1Fu};
  if (byte >= 0xE0 && byte < 0xF0) return {3, byte & 0x0Fu};
  if (byte >= 0xF0 && byte < 0xF5) return {4, byte & 0x07u};
  return {};
}

}  // namespace

std::vector<char32_t> code_points(std::string_view utf8) {
  constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  std::vector<char32_t> codes;
  for (std::size_t i = 0; i < utf8.size();) {
    auto [count, code] = lead(static_cast<unsigned char>(utf8[i]));
    bool good = count > 0 && i + count <= utf8.size();
    for (int k = 1; good && k < count; ++k) {
      const auto next = static_cast<unsigned char>(utf8[i + k]);
      good = (next & 0xC0) == 0x80;
      code = (code << 6) | (next & 0x3Fu);
    }
    good = good && code >= least[count] && code <= 0x10FFFF && !(code >= 0xD800 && code < 0xE000);
    codes.push_back(good ? code : no_character);
    i += good ? count : 1;
  }
  return codes;
}

tl::expected<Font, Font::Error> Font::open(const std::string& path) {
  Font font;
  font.path_ = path;
  font.face_ = open_face(path);
  if (!font.face_) {
    const bool ours = path == default_font_path;
    return tl::unexpected(Error{
        fmt::format("font {} cannot be read{}", path, ours ? ": install the Debian package fonts-dejavu-extra" : "")});
  }
  FT_Face face = face_of(font.face_);
  if (!FT_IS_SFNT(face) || !FT_IS_SCALABLE(face) || face->charmap == nullptr)
    return tl::unexpected(Error{fmt::format("font {} is not a TrueType font with a Unicode character map", path)});

  font.family_ = face->family_name ? face->family_name : "";
  font.face_name_ = font.family_ + (face->style_name ? std::string(" ") + face->style_name : "");
  const double em = face->units_per_EM;
  FT_UInt glyph = 0;
  for (FT_ULong code = FT_Get_First_Char(face, &glyph); glyph != 0; code = FT_Get_Next_Char(face, code, &glyph)) {
    FT_Fixed advance = 0;
    if (FT_Get_Advance(face, glyph, FT_LOAD_NO_SCALE, &advance) != 0) continue;
    font.entries_.push_back({static_cast<char32_t>(code), glyph, static_cast<double>(advance) / em});
  }
  for (std::size_t code = 0; code < font.ascii_em_.size(); ++code)
    font.ascii_em_[code] = font.advance_em(static_cast<char32_t>(code));
  const auto box = [&](char32_t c) {
    FT_BBox b{};
    FT_Glyph shape = nullptr;
    if (FT_Load_Glyph(face, font.glyph(c), FT_LOAD_NO_SCALE) == 0 && FT_Get_Glyph(face->glyph, &shape) == 0) {
      FT_Glyph_Get_CBox(shape, FT_GLYPH_BBOX_UNSCALED, &b);
      FT_Done_Glyph(shape);
    }
    return b;
  };
  font.cap_em_ = static_cast<double>(box(U'H').yMax) / em;
  font.descent_em_ = -static_cast<double>(box(U'p').yMin) / em;
  if (!(font.cap_em_ > 0.3 && font.cap_em_ < 1.5 && font.descent_em_ >= 0))
    return tl::unexpected(Error{fmt::format("font {} has no Latin capitals to take its height from", path)});
  return font;
}

const Font::Entry* Font::find(char32_t code) const {
  const auto at =
      std::lower_bound(entries_.begin(), entries_.end(), code, [](const Entry& e, char32_t c) { return e.code < c; });
  return at != entries_.end() && at->code == code ? &*at : nullptr;
}

double Font::advance_em(char32_t code) const {
  const Entry* entry = find(code);
  return entry ? entry->advance_em : 1;
}

unsigned Font::glyph(char32_t code) const {
  const Entry* entry = find(code);
  return entry ? entry->glyph : 0;
}

double Font::wider_em(double em, std::string_view utf8) const {
  const auto rest = std::find_if(utf8.begin(), utf8.end(), [&](char c) {
    const auto code = static_cast<unsigned char>(c);
    if (code < ascii_em_.size()) em += ascii_em_[code];
    return code >= ascii_em_.size();
  });
  for (char32_t code : code_points(utf8.substr(static_cast<std::size_t>(rest - utf8.begin())))) em += advance_em(code);
  return em;
}

std::string Font::missing(std::string_view utf8) const {
  for (char32_t code : code_points(utf8)) {
    if (code == no_character) return "a byte that is not UTF-8";
    if (!find(code)) return fmt::format("U+{:04X}", static_cast<std::uint32_t>(code));
  }
  return {};
}

std::vector<unsigned> Font::parts(unsigned glyph) const {
  std::vector<unsigned> found, open{glyph};
  while (!open.empty()) {
    const unsigned next = open.back();
    open.pop_back();
    FT_Face face = face_of(face_);
    if (FT_Load_Glyph(face, next, FT_LOAD_NO_SCALE | FT_LOAD_NO_RECURSE) != 0) continue;
    if (face->glyph->format != FT_GLYPH_FORMAT_COMPOSITE) continue;
    for (FT_UInt i = 0; i < face->glyph->num_subglyphs; ++i) {
      FT_Int index = 0, arg1 = 0, arg2 = 0;
      FT_UInt flags = 0;
      FT_Matrix transform{};
      if (FT_Get_SubGlyph_Info(face->glyph, i, &index, &flags, &arg1, &arg2, &transform) != 0) continue;
      const auto part = static_cast<unsigned>(index);
      if (std::find(found.begin(), found.end(), part) != found.end()) continue;
      found.push_back(part);
      open.push_back(part);
    }
  }
  return found;
}

}  // namespace fairlead::drawing

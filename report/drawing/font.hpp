// The one font of the drawings: its metrics decide where every letter stands.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "report/drawing/wording.hpp"

namespace fairlead::drawing {

inline constexpr const char* default_font_path = "/usr/share/fonts/truetype/dejavu/DejaVuSansCondensed.ttf";

/// Code points of a UTF-8 text. A byte that is no UTF-8 gives U+FFFFFFFF, which no font has.
std::vector<char32_t> code_points(std::string_view utf8);

/// A TrueType font as FreeType reads it, in fractions of the em. Reading from several threads is safe except for
/// `parts`.
class Font {
 public:
  /// Why it cannot be used; for the default font names the Debian package that holds it.
  struct Error {
    std::string message;
  };
  static tl::expected<Font, Error> open(const std::string& path = default_font_path);

  const std::string& path() const { return path_; }
  const std::string& family() const { return family_; }   ///< "DejaVu Sans"
  const std::string& face() const { return face_name_; }  ///< family and style: "DejaVu Sans Condensed"
  double cap_em() const { return cap_em_; }               ///< height of "H"
  double descent_em() const { return descent_em_; }       ///< how far "p" reaches below the baseline, > 0

  /// Letters in another language from now on. The pairs go with the font, as both decide how wide a text is: whoever
  /// measures one has it.
  void speak(std::shared_ptr<const Wording> wording) { wording_ = std::move(wording); }
  const Wording* wording() const { return wording_.get(); }  ///< null: in English
  /// What stands on a sheet in place of an English text; the text itself without a language or a pair.
  std::string_view said(std::string_view english) const { return wording_ ? wording_->said(english) : english; }

  /// Index of a character's glyph; 0 where the font has none.
  unsigned glyph(char32_t) const;
  /// Width of a text. A character the font lacks counts one em: back ends refuse the text, so it is never seen.
  double width_mm(std::string_view utf8, double cap_mm) const { return wider_em(0, utf8) * cap_mm / cap_em_; }
  /// Width in ems of a text behind one of `em`: a line that grows word by word is not measured anew.
  double wider_em(double em, std::string_view utf8) const;
  /// "U+4E2D" of the first character the font lacks; empty when it has all.
  std::string missing(std::string_view utf8) const;
  /// The glyphs a composite glyph is made of, to any depth.
  std::vector<unsigned> parts(unsigned glyph) const;

 private:
  struct Entry {
    char32_t code{};
    unsigned glyph{};
    double advance_em{};
  };
  const Entry* find(char32_t) const;
  double advance_em(char32_t) const;

  std::string path_, family_, face_name_;
  double cap_em_{}, descent_em_{};
  std::vector<Entry> entries_;          ///< rising code
  std::array<double, 128> ascii_em_{};  ///< advances of the characters most texts are made of
  std::shared_ptr<void> face_;
  std::shared_ptr<const Wording> wording_;
};

}  // namespace fairlead::drawing

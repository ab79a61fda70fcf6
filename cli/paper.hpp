// What the commands that write drawings share.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/options.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/labels.hpp"

namespace fairlead::cli {

struct PaperOptions {
  std::string size;        ///< "A3", "ANSI-B"
  std::string projection;  ///< "first" or "third"; empty: what the paper's readers expect
  bool grey{};
  std::string decimal;  ///< "point" or "comma"
  std::string font;     ///< empty: the one of fonts-dejavu-extra
  std::string labels;   ///< file of pairs; empty: in English
};

/// Throws Unusable: before the work, as a missing font is found in a millisecond.
drawing::Font font_of(const PaperOptions&);
sheets::Office office_of(const PaperOptions&, const drawing::Font&);

/// Lets the font letter in the language of the file of pairs; what the layout says, and what is
/// `written` elsewhere, stays as it is. Throws
/// Unusable with every error of the file.
class Labels {
 public:
  /// Reads the file: before the work.
  Labels(const PaperOptions&, const drawing::Font&);
  void speak(drawing::Font&, const Layout&, const std::vector<std::string>& written = {}) const;
  /// Tells on stderr which labels of the composed sheets have no pair.
  void tell_without_pair(const drawing::Font&) const;

 private:
  std::string file_;
  std::optional<words::Pairs> pairs_;
};

/// What a set is lettered with and in. Throws Unusable before the work.
struct Lettering {
  explicit Lettering(const PaperOptions& paper) : font(font_of(paper)), labels(paper, font) {}
  drawing::Font font;
  Labels labels;
};

/// Tells on stderr what found no room on its paper, and on which it does.
void tell_left_out(const std::vector<drawing::Sheet>&);

/// Composed sheets as a document, their numbers with the decimal marker that was asked for. Throw Unusable where they
/// cannot be written as such.
std::string pdf_of(std::vector<drawing::Sheet>, const PaperOptions&, const drawing::Font&, const Layout&);
/// The same of sheets yet to be composed, in the language that was asked for; tells what was left out of them.
std::string composed_pdf(const std::function<std::vector<drawing::Sheet>(const sheets::Office&)>& compose, Lettering&,
                         const PaperOptions&, const Layout&, const std::vector<std::string>& written = {});
std::string svg_of(std::vector<drawing::Sheet>, const PaperOptions&, const drawing::Font&, const Layout&);
std::string dxf_of(std::vector<drawing::Sheet>, const PaperOptions&, const drawing::Font&, const Layout&);

/// Whole or not at all; then says so after the headline. Throws Unusable when it cannot.
void write(const std::string& path, const std::string& bytes, const std::string& headline);

}  // namespace fairlead::cli

#include "cli/paper.hpp"

#include <fmt/format.h>

#include <cstdio>

#include "cli/rows.hpp"
#include "geometry/layout/whole_file.hpp"
#include "report/drawing/decimal.hpp"
#include "report/formats/dxf.hpp"
#include "report/formats/files.hpp"
#include "report/formats/pdf.hpp"
#include "report/formats/svg.hpp"
#include "report/sheets/language.hpp"
#include "report/words/names.hpp"
#include "report/words/version.hpp"

namespace fairlead::cli {
namespace {

formats::DocumentInfo document_info(const Layout& layout) {
  const Project& project = layout.project;
  formats::DocumentInfo info;
  info.title = project.number.value + " " + project.title.value;
  if (project.creator) info.author = project.creator->value;
  info.subject = "layout " + words::place_without_folder(layout, {}) + ", SHA-256 " + layout.sha256;
  info.program = "fairlead " + std::string(words::program_version());
  if (layout.project.date) info.date = layout.project.date->value;
  if (layout.judged_on) info.date = layout.judged_on->value;
  return info;
}

std::vector<drawing::Sheet> marked(std::vector<drawing::Sheet> sheets, const PaperOptions& paper) {
  if (paper.decimal == "comma")
    for (drawing::Sheet& sheet : sheets) drawing::set_decimal_comma(sheet.drawing);
  return sheets;
}

std::string written(tl::expected<std::string, formats::Refusal> bytes) {
  if (!bytes) throw Unusable{"error: " + bytes.error().message + "\n"};
  return std::move(*bytes);
}

}  // namespace

drawing::Font font_of(const PaperOptions& paper) {
  auto font = drawing::Font::open(paper.font.empty() ? drawing::default_font_path : paper.font);
  if (!font) throw Unusable{"error: " + font.error().message + "\n"};
  return std::move(*font);
}

sheets::Office office_of(const PaperOptions& paper, const drawing::Font& font) {
  using Size = sheets::PaperSize;
  sheets::Office office{font};
  for (const auto& [name, size] : {std::pair{"A1", Size::a1},
                                   {"A2", Size::a2},
                                   {"A3", Size::a3},
                                   {"A4", Size::a4},
                                   {"ANSI-A", Size::ansi_a},
                                   {"ANSI-B", Size::ansi_b},
                                   {"ANSI-C", Size::ansi_c},
                                   {"ANSI-D", Size::ansi_d}})
    if (paper.size == name) office.paper = size;
  if (!paper.projection.empty()) office.first_angle = paper.projection == "first";
  office.grey = paper.grey;
  return office;
}

Labels::Labels(const PaperOptions& paper, const drawing::Font& font) : file_(paper.labels) {
  if (file_.empty()) return;
  constexpr FileKind kind{"a file of pairs", "the file of pairs", std::size_t{1024} * 1024};
  const auto bytes = whole_file(file_, kind);
  if (!bytes)
    throw Unusable{
        fairlead::print({.file = file_, .message = bytes.error().message, .instead = bytes.error().instead})};
  auto pairs = words::read_pairs(*bytes, [&](std::string_view text) { return font.missing(text); });
  if (!pairs) throw Unusable{printed(file_, pairs.error())};
  pairs_ = std::move(*pairs);
}

void Labels::speak(drawing::Font& font, const Layout& layout, const std::vector<std::string>& written) const {
  if (!pairs_) return;
  font.speak(sheets::wording_of(*pairs_, layout, written));
}

void Labels::tell_without_pair(const drawing::Font& font) const {
  if (!pairs_) return;
  const std::vector<std::string> without = font.wording()->without_pair();
  if (without.empty()) return;
  std::string names;
  for (const std::string& name : without) names += fmt::format("\n  \"{}\"", name);
  std::fputs(fmt::format("note: {} {} of these sheets {} no pair in {} and {} English; add {} under [labels]:{}\n",
                         without.size(), without.size() == 1 ? "label" : "labels", without.size() == 1 ? "has" : "have",
                         file_, without.size() == 1 ? "stays" : "stay", without.size() == 1 ? "it" : "them", names)
                 .c_str(),
             stderr);
}

void tell_left_out(const std::vector<drawing::Sheet>& sheets) {
  for (std::size_t i = 0; i < sheets.size(); ++i)
    for (const std::string& one : sheets[i].left_out)
      std::fputs(fmt::format("note: sheet {}: {}\n", i + 1, one).c_str(), stderr);
}

std::string pdf_of(std::vector<drawing::Sheet> sheets, const PaperOptions& paper, const drawing::Font& font,
                   const Layout& layout) {
  return written(formats::pdf(marked(std::move(sheets), paper), font, document_info(layout)));
}

std::string composed_pdf(const std::function<std::vector<drawing::Sheet>(const sheets::Office&)>& compose,
                         Lettering& lettering, const PaperOptions& paper, const Layout& layout,
                         const std::vector<std::string>& written) {
  lettering.labels.speak(lettering.font, layout, written);
  std::vector<drawing::Sheet> sheets = compose(office_of(paper, lettering.font));
  tell_left_out(sheets);
  lettering.labels.tell_without_pair(lettering.font);
  return pdf_of(std::move(sheets), paper, lettering.font, layout);
}

std::string svg_of(std::vector<drawing::Sheet> sheets, const PaperOptions& paper, const drawing::Font& font,
                   const Layout& layout) {
  return written(formats::svg(marked(std::move(sheets), paper), font, document_info(layout)));
}
std::string dxf_of(std::vector<drawing::Sheet> sheets, const PaperOptions& paper, const drawing::Font& font,
                   const Layout& layout) {
  return written(formats::dxf(marked(std::move(sheets), paper), font, document_info(layout)));
}

void write(const std::string& path, const std::string& bytes, const std::string& headline) {
  if (const auto written = formats::write_whole(path, bytes); !written)
    throw Unusable{"error: " + written.error().message + "\n"};
  print(headline + "\n" + path + " written\n");
}

}  // namespace fairlead::cli

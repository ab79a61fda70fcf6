#include "cli/paper.hpp"

#include <fmt/format.h>

#include <cstdio>

#include "report/drawing/decimal.hpp"
#include "report/formats/dxf.hpp"
#include "report/formats/files.hpp"
#include "report/formats/pdf.hpp"
#include "report/formats/svg.hpp"
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

void tell_left_out(const std::vector<drawing::Sheet>& sheets) {
  for (std::size_t i = 0; i < sheets.size(); ++i)
    for (const std::string& one : sheets[i].left_out)
      std::fputs(fmt::format("note: sheet {}: {}\n", i + 1, one).c_str(), stderr);
}

std::string pdf_of(std::vector<drawing::Sheet> sheets, const PaperOptions& paper, const drawing::Font& font,
                   const Layout& layout) {
  return written(formats::pdf(marked(std::move(sheets), paper), font, document_info(layout)));
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

#include "cli/commands.hpp"
#include "report/formats/pdf.hpp"
#include "report/sheets/sheet.hpp"
#include "report/words/names.hpp"
#include "report/words/version.hpp"

namespace fairlead::cli {
namespace {

formats::DocumentInfo document_info(const Layout& layout) {
  const Project& project = layout.project;
  formats::DocumentInfo info;
  info.title = project.number.value + " " + project.title.value;
  if (project.creator) info.author = project.creator->value;
  info.subject = "layout " + layout.files.front() + ", SHA-256 " + layout.sha256;
  info.program = "fairlead " + std::string(words::program_version());
  if (layout.project.date) info.date = layout.project.date->value;
  if (layout.judged_on) info.date = layout.judged_on->value;
  return info;
}

}  // namespace

int draw(const JudgeOptions& options, const DrawOptions& draw) {
  // Before the work: a missing font is found in a millisecond.
  const auto font = drawing::Font::open(draw.font.empty() ? drawing::default_font_path : draw.font);
  if (!font) throw Unusable{"error: " + font.error().message + "\n"};
  Dossier dossier = judge(options);
  if (draw.windows) dossier.placement = placement(dossier.judged, false, work_of(options));
  const sheets::Office office{*font, draw.size == "A3" ? sheets::PaperSize::a3 : sheets::PaperSize::ansi_b};
  const auto bytes = formats::pdf(sheets::compose(dossier, style_of(options), office), *font,
                                  document_info(dossier.judged.rig.layout));
  if (!bytes) throw Unusable{"error: " + bytes.error().message + "\n"};
  if (const auto written = formats::write_whole(draw.output, *bytes); !written)
    throw Unusable{"error: " + written.error().message + "\n"};
  print(words::headline(dossier.judged) + "\n" + draw.output + " written\n");
  return exit_status(dossier.judged.findings);
}

}  // namespace fairlead::cli

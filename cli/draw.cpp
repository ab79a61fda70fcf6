#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/trialled.hpp"
#include "geometry/studies/arrest_figures.hpp"
#include "report/formats/csv.hpp"
#include "report/words/names.hpp"
#include "report/words/trial.hpp"

namespace fairlead::cli {
namespace {

using Sheets = std::vector<drawing::Sheet>;

void refuse(const tl::expected<void, formats::Refusal>& done) {
  if (!done) throw Unusable{"error: " + done.error().message + "\n"};
}

/// A folder where one is there or the name ends as one.
bool names_folder(const std::string& output) {
  std::error_code ignored;
  return output.ends_with('/') || std::filesystem::is_directory(output, ignored);
}

/// 100 of "1:100".
double scale_of(const std::string& text) {
  std::string all;
  for (const double scale : sheets::arrangement_scales()) {
    const std::string name = fmt::format("1:{:g}", scale);
    if (text == name) return scale;
    all += fmt::format("{}{}", all.empty() ? "" : ", ", name);
  }
  throw Unusable{fmt::format("error: --scale {}: write one of the series of ISO 5455: {}\n", text, all)};
}

bool has_arrangement(const Sheets& sheets) {
  return std::any_of(sheets.begin(), sheets.end(), [](const drawing::Sheet& sheet) {
    return std::any_of(sheet.drawing.views.begin(), sheet.drawing.views.end(),
                       [](const drawing::View& view) { return view.name == "elevation"; });
  });
}

/// Where the general arrangement finds no room at the scale asked for, the scales at which it does.
void refuse_other_scale(const Sheets& sheets, const Dossier& dossier, const Style& style, sheets::Office office) {
  if (has_arrangement(sheets)) return;
  const double asked = *office.scale;
  std::string others;
  for (const double scale : sheets::arrangement_scales()) {
    office.scale = scale;
    if (scale != asked && has_arrangement(sheets::compose(dossier, style, office, "general-arrangement")))
      others += fmt::format("{}1:{:g}", others.empty() ? "" : ", ", scale);
  }
  throw Unusable{fmt::format("error: --scale 1:{:g}: the general arrangement has no room at it; {}\n", asked,
                             others.empty() ? "take a greater --size" : "it has at " + others)};
}

/// "03_setting_out" of the third sheet.
std::string stem_of(std::size_t i, const drawing::Sheet& sheet) {
  std::string name = fmt::format("{:02}_", i + 1);
  for (const char c : sheet.title) {
    if (c >= 'A' && c <= 'Z')
      name += static_cast<char>(c - 'A' + 'a');
    else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
      name += c;
    else if (name.back() != '_')
      name += '_';
  }
  return name;
}

/// The set as one PDF, every sheet as an SVG and a DXF, every table as a CSV.
std::vector<formats::File> everything(const Sheets& sheets, const PaperOptions& paper, const drawing::Font& font,
                                      const Dossier& dossier, const Style& style) {
  const Layout& layout = dossier.judged.rig.layout;
  std::vector<formats::File> files = formats::csv_files(dossier, style);
  files.push_back({"set.pdf", pdf_of(sheets, paper, font, layout)});
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const std::string stem = stem_of(i, sheets[i]);
    files.push_back({stem + ".svg", svg_of({sheets[i]}, paper, font, layout)});
    files.push_back({stem + ".dxf", dxf_of({sheets[i]}, paper, font, layout)});
  }
  return files;
}

}  // namespace

int draw(const JudgeOptions& options, const DrawOptions& draw) {
  // What cannot be written is refused before the work.
  const bool folder = names_folder(draw.output);
  const std::string format = folder ? "" : format_of("", draw.output, {"pdf", "svg", "dxf", "/"});
  if (folder) refuse(formats::may_become_folder(draw.output));
  Lettering lettering(draw.paper);
  const drawing::Font& font = lettering.font;
  sheets::Office office = office_of(draw.paper, font);
  if (!draw.scale.empty()) office.scale = scale_of(draw.scale);
  std::string message;
  ResultsFile results = results_file(draw.trial, message);
  if (!message.empty()) throw Unusable{message};
  Dossier dossier = judge(options);
  const Judged& judged = dossier.judged;
  dossier.setting_out = setting_out(judged.rig);
  if (judged.rig.arrest.solved() || !draw.trial.empty())
    dossier.trial = std::make_shared<const trial::Trial>(trial_of(judged.rig, std::move(results), work_of(options)));
  if (judged.rig.arrest.solved())
    dossier.arrest = std::make_shared<const ArrestFigures>(
        arrest_figures(judged.rig, work_of(options), trial::arrivals_measured(*dossier.trial)));
  if (draw.windows) dossier.placement = placement(judged, false, work_of(options));
  const Style style = style_of(options);
  lettering.labels.speak(lettering.font, judged.rig.layout);
  office.work = work_of(options);
  Sheets sheets = sheets::compose(dossier, style, office);
  if (office.scale) refuse_other_scale(sheets, dossier, style, office);
  tell_left_out(sheets);
  lettering.labels.tell_without_pair(font);
  if (folder) {
    const auto files = everything(sheets, draw.paper, font, dossier, style);
    refuse(formats::write_folder(draw.output, files));
    print(fmt::format("{}\n{} written, {} files\n", words::headline(dossier), draw.output, files.size()));
  } else {
    const auto document_of = format == "svg" ? svg_of : format == "dxf" ? dxf_of : pdf_of;
    write(draw.output, document_of(sheets, draw.paper, font, judged.rig.layout), words::headline(dossier));
  }
  return words::exit_status(dossier);
}

}  // namespace fairlead::cli

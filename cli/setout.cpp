#include <optional>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "geometry/quantity/units.hpp"
#include "report/formats/points_csv.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"

namespace fairlead::cli {
namespace {

/// Which of several words was written; nothing where none was.
template <class Value>
std::optional<Value> choice(const std::string& written, std::initializer_list<std::pair<const char*, Value>> all) {
  for (const auto& [word, value] : all)
    if (written == word) return value;
  return std::nullopt;
}

/// Neither order nor unit can be told from a file's numbers, so neither has a default.
std::optional<PointsFormat> points_format_of(const SetoutOptions& setout, bool wanted) {
  const auto order = choice<PointsOrder>(
      setout.order, {{"pnezd", PointsOrder::pnezd}, {"penzd", PointsOrder::penzd}, {"named", PointsOrder::named}});
  // A shell's words have no blanks, as the layout's for the survey foot does.
  const auto unit = choice<PointsUnit>(setout.unit, {{"m", PointsUnit::m},
                                                     {"mm", PointsUnit::mm},
                                                     {"ft", PointsUnit::ft},
                                                     {"us_survey_ft", PointsUnit::us_survey_ft}});
  if (!wanted && (order || unit))
    throw Unusable{"error: --order and --unit are of a points file: write --format csv or -o FILE.csv\n"};
  if (!wanted) return std::nullopt;
  if (!order || !unit)
    throw Unusable{
        "error: a points file needs --order (pnezd, penzd or named) and --unit (m, mm, ft or "
        "us_survey_ft): neither can be told from its numbers\n"};
  return PointsFormat{.order = *order, .unit = *unit};
}

double tape_of(const std::string& text) {
  const auto length_m = read_quantity(text, Dimension::length);
  if (!length_m)
    throw Unusable{"error: --tape " + text + ": " + length_m.error().message + ": " + length_m.error().instead + "\n"};
  if (!(*length_m > 0))
    throw Unusable{"error: --tape " + text + ": a tape has a length above 0, for example \"30 m\"\n"};
  return *length_m;
}

std::string csv_of(const Dossier& dossier, const PointsFormat& format) {
  const auto text = formats::points_csv(dossier, format);
  if (!text) throw Unusable{"error: no points file: " + text.error().why + "\n"};
  return *text;
}

}  // namespace

int setout(const JudgeOptions& options, const SetoutOptions& setout) {
  const std::string format = format_of(setout.format, setout.output, {"pdf", "csv", "json", "text"});
  const auto points = points_format_of(setout, format == "csv");
  const double tape_m = tape_of(setout.tape);
  std::optional<drawing::Font> font;
  if (format == "pdf") font = font_of(setout.paper);

  Dossier dossier = judge(options);
  const Judged& judged = dossier.judged;
  dossier.setting_out = setting_out(judged.rig, tape_m);
  // Single windows never stand on a sheet.
  if (setout.windows) dossier.placement = placement(judged, !font, work_of(options));
  const Style style = style_of(options);
  std::string bytes;
  if (font)
    bytes = pdf_of(sheets::compose_crew(dossier, style, office_of(setout.paper, *font)), *font, judged.rig.layout);
  else if (points)
    bytes = csv_of(dossier, *points);
  else
    bytes = format == "json" ? json::write(dossier) : text::write_setting_out(dossier, style);
  setout.output.empty() ? print(bytes) : write(setout.output, bytes, judged);
  return exit_status(judged.findings);
}

}  // namespace fairlead::cli

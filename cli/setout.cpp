#include <optional>

#include "cli/commands.hpp"
#include "cli/output.hpp"
#include "cli/points.hpp"
#include "geometry/quantity/units.hpp"
#include "report/formats/points_csv.hpp"
#include "report/formats/text.hpp"
#include "report/json/json.hpp"
#include "report/words/names.hpp"

namespace fairlead::cli {
namespace {

std::optional<PointsFormat> points_format_of(const SetoutOptions& setout, bool wanted) {
  if (wanted) return points_format(setout.order, setout.unit);
  if (!setout.order.empty() || !setout.unit.empty())
    throw Unusable{"error: --order and --unit are of a points file: write --format csv or -o FILE.csv\n"};
  return std::nullopt;
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
  std::optional<Lettering> lettering;
  if (format == "pdf") lettering.emplace(setout.paper);

  Dossier dossier = judge(options);
  const Judged& judged = dossier.judged;
  dossier.setting_out = setting_out(judged.rig, tape_m);
  // Single windows never stand on a sheet.
  if (setout.windows) dossier.placement = placement(judged, !lettering, work_of(options));
  const Style style = style_of(options);
  std::string bytes;
  if (lettering) {
    bytes = composed_pdf([&](const sheets::Office& office) { return sheets::compose_crew(dossier, style, office); },
                         *lettering, setout.paper, judged.rig.layout);
  } else if (points)
    bytes = csv_of(dossier, *points);
  else
    bytes = format == "json" ? json::write(dossier) : text::write_setting_out(dossier, style);
  setout.output.empty() ? print(bytes) : write(setout.output, bytes, words::headline(judged));
  return exit_status(judged.findings);
}

}  // namespace fairlead::cli

#include "cli/commands.hpp"
#include "geometry/studies/arrest_figures.hpp"

namespace fairlead::cli {

int draw(const JudgeOptions& options, const DrawOptions& draw) {
  const drawing::Font font = font_of(draw.paper);
  Dossier dossier = judge(options);
  dossier.setting_out = setting_out(dossier.judged.rig);
  if (dossier.judged.rig.arrest.solved())
    dossier.arrest = std::make_shared<const ArrestFigures>(arrest_figures(dossier.judged.rig, work_of(options)));
  if (draw.windows) dossier.placement = placement(dossier.judged, false, work_of(options));
  const auto sheets = sheets::compose(dossier, style_of(options), {font, size_of(draw.paper)});
  write(draw.output, pdf_of(sheets, font, dossier.judged.rig.layout), dossier.judged);
  return exit_status(dossier.judged.findings);
}

}  // namespace fairlead::cli

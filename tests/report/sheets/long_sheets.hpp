// The demo rig with its brake unit and everything beyond the travel moved downstream, so that its arrest end is long.
#pragma once

#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {

/// Along the main line, which bears 0.8 east and 0.6 north.
inline std::string downstream(double east, double north, double up, double by_m) {
  return fmt::format("[{:.3f}, {:.3f}, {:.3f}]", east + 0.8 * by_m, north + 0.6 * by_m, up);
}

/// `by_m` more of travel, line and platform. A light line and a main line drawn tight: it then hangs over 150 m too.
inline Dossier lengthened(double by_m) {
  const auto metres = [&](double m) { return fmt::format("{:g} m", m + by_m); };
  return judged({{"anchor.P2.position", downstream(1376, 932, 330.5, by_m)},
                 {"anchor.B1.position", downstream(1371.2, 928.4, 332.3, by_m)},
                 {"brake_unit.outlet", downstream(1371.2, 928.4, 332.5, by_m)},
                 {"brake_unit.extension_limit", metres(18.5)},
                 {"brake_unit.rest_extension", "3 m"},
                 {"brake_unit.retraction", fmt::format("[[\"0 m\", \"45 N\"], [\"{}\", \"190 N\"]]", metres(18.5))},
                 {"brake_trolley.travel", metres(15)},
                 {"backup_brake.engages", metres(204.5)},
                 {"landing.platform_to", metres(216)},
                 {"landing.latest_rest", metres(204)},
                 {"main_line.tension", "60 kN"},
                 {"line.L1.mass", "0.006 kg/m"}});
}

/// Travels of 115 m and 165 m, with its lines solved, and of 300 m, with none.
inline const Dossier& shorter() {
  static const Dossier dossier = lengthened(100);
  return dossier;
}
inline const Dossier& longish() {
  static const Dossier dossier = lengthened(150);
  return dossier;
}
inline const Dossier& long_one() {
  static const Dossier dossier = lengthened(285);
  return dossier;
}

/// Its general arrangement alone, the sheets of its views.
inline std::vector<drawing::Sheet> view_sheets(const Dossier& dossier, PaperSize paper = PaperSize::a3,
                                               std::optional<double> scale = {}) {
  Office office{font(), paper};
  office.scale = scale;
  auto set = compose(dossier, Style{}, office, "general-arrangement");
  std::erase_if(set, [](const drawing::Sheet& sheet) { return sheet.drawing.views.empty(); });
  return set;
}

}  // namespace fairlead::sheets

// Rigs whose redirect hangs on a mount, or whose secondary anchor is held by members.
#pragma once

#include <array>

#include "tests/checks/built_up.hpp"
#include "tests/mounted_layouts.hpp"
#include "tests/report/sheets/demo_sheets.hpp"

namespace fairlead::sheets {

inline Dossier judged_layout(const Layout& layout) {
  Dossier dossier;
  dossier.judged = judge(layout);
  return dossier;
}
inline const Dossier& hung() {
  static const Dossier dossier = judged_layout(free_redirect());
  return dossier;
}
inline const Dossier& hung_reduced() {
  static const Dossier dossier = judged_layout(free_redirect_reduced());
  return dossier;
}
inline const Dossier& swivelled() {
  static const Dossier dossier = judged_layout(swivelling_redirect());
  return dossier;
}
inline const Dossier& guyed() {
  static const Dossier dossier = judged_layout(built_up(guyed_pole("wll = \"2 t\"\n", "may_be_lost = true\n")));
  return dossier;
}
/// A pole and four guys to these feet.
inline Dossier held_by_guys(const std::array<const char*, 4>& feet, const std::string& keys) {
  std::string members =
      member("S1", "pole", "[1348.0, 911.0, 325.0]", "ea = \"60 MN\"\ncompression_limit = \"40 kN\"\n");
  for (std::size_t i = 0; i < feet.size(); ++i) members += member(fmt::format("G{}", i + 1), "guy", feet[i], keys);
  return judged_layout(built_up(members));
}
/// One guy runs far upstream, one far to the left.
inline const Dossier& far_guyed() {
  static const Dossier dossier = held_by_guys(
      {"[1316.0, 887.0, 318.0]", "[1330.0, 935.0, 325.0]", "[1354.0, 903.0, 325.0]", "[1356.0, 917.0, 325.0]"},
      "ea = \"6 MN\"\npretension = \"1 kN\"\nwll = \"2 t\"\n");
  return dossier;
}
/// Legs of a frame above, one of them without a capacity.
inline const Dossier& bridled() {
  static const Dossier dossier =
      judged_layout(built_up(member("B1L", "leg", "[1345.8, 911.85, 332.2]", "wll = \"2 t\"\n") +
                             member("B1R", "leg", "[1348.2, 908.65, 332.2]")));
  return dossier;
}
/// Guys without pretension: those that nothing pulls are slack.
inline const Dossier& loosely_guyed() {
  static const Dossier dossier = held_by_guys(
      {"[1340.0, 905.0, 325.0]", "[1342.0, 919.0, 325.0]", "[1354.0, 903.0, 325.0]", "[1356.0, 917.0, 325.0]"},
      "ea = \"6 MN\"\nwll = \"2 t\"\n");
  return dossier;
}

}  // namespace fairlead::sheets

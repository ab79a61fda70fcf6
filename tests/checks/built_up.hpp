// Heron Gully with its secondary anchor built up of members.
#pragma once

#include <fstream>
#include <iterator>

#include "tests/checks/findings.hpp"

namespace fairlead {

inline std::string member(const std::string& id, const std::string& kind, const std::string& to,
                          const std::string& more = "") {
  return "\n[[member]]\nid = \"" + id + "\"\nanchor = \"A3\"\nkind = \"" + kind + "\"\nto = " + to + "\n" + more;
}

/// A pole below A3 and four guys in the directions upstream, downstream and to both sides.
inline std::string guyed_pole(const std::string& guys = "wll = \"2 t\"\n", const std::string& first = "") {
  const std::string stiff = "ea = \"6 MN\"\npretension = \"1 kN\"\n" + guys;
  return member("S1", "pole", "[1348.0, 911.0, 325.0]", "ea = \"60 MN\"\ncompression_limit = \"40 kN\"\n") +
         member("G1", "guy", "[1340.0, 905.0, 325.0]", stiff + first) +
         member("G2", "guy", "[1342.0, 919.0, 325.0]", stiff) + member("G3", "guy", "[1354.0, 903.0, 325.0]", stiff) +
         member("G4", "guy", "[1356.0, 917.0, 325.0]", stiff);
}

/// Two legs from a frame 2 m upstream and above, to both sides.
inline std::string bridle(const std::string& more = "wll = \"2 t\"\n") {
  return member("B1L", "leg", "[1345.8, 911.85, 332.2]", more) + member("B1R", "leg", "[1348.2, 908.65, 332.2]", more);
}

/// With these members, and `anchor` as the keys of A3 in place of its mbs.
inline Layout built_up(const std::string& members, const std::string& anchor = "") {
  std::ifstream in(FAIRLEAD_SOURCE_DIR "/layouts/heron_gully.toml", std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), {}};
  const std::string mark = "mbs = \"60 kN\"\n\n[[anchor]]\nid = \"B1\"";
  const std::size_t at = text.find(mark);
  if (at == std::string::npos) throw std::runtime_error("Heron Gully has another anchor A3");
  text.replace(at, mark.size(), anchor + "\n\n[[anchor]]\nid = \"B1\"");
  auto layout = read_layout_text(text + members, "heron.toml", {});
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

constexpr int secondary = 2;  // A3

}  // namespace fairlead

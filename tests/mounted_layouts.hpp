// The demo layouts with their redirect on a mount.
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "geometry/layout/read.hpp"

namespace fairlead {

/// A demo layout with one text in place of another, which stands in it once; a diagnostic is the test's failure.
inline Layout layout_with(const std::string& file, const std::string& old, const std::string& text,
                          const std::vector<Override>& keys = {}) {
  std::ifstream in(FAIRLEAD_SOURCE_DIR "/layouts/" + file, std::ios::binary);
  std::string all{std::istreambuf_iterator<char>(in), {}};
  const std::size_t at = all.find(old);
  if (at == std::string::npos || all.find(old, at + 1) != std::string::npos)
    throw std::runtime_error(file + " has not once: " + old);
  auto layout = read_layout_text(all.replace(at, old.size(), text), file, keys);
  if (layout) return std::move(*layout);
  std::string message;
  for (const Diagnostic& diagnostic : layout.error()) message += print(diagnostic);
  throw std::runtime_error(message);
}

/// 1:1, the redirect on a link of 0.4 m from an anchor beside the main line's plane, its frame heavier on one side.
inline Layout free_redirect() {
  return layout_with(
      "heron_gully.toml", "position = [1348.000, 911.000, 331.400]\n",
      "mount = \"free\"\nlink = \"0.4 m\"\nmass = \"2 kg\"\ncentre_of_mass = [0, \"20 mm\", \"-30 mm\"]\n",
      {{"anchor.A3.position", "[1347.976, 911.032, 331.700]"}});
}

/// 2:1, likewise. The other end of its line is made fast beside the sheave's link.
inline Layout free_redirect_reduced() {
  return layout_with("marten_ridge.toml", "position = [660.320, 346.760, 403.250]\n",
                     "mount = \"free\"\nlink = \"0.3 m\"\nmass = \"2.5 kg\"\n");
}

/// 1:1, astern of a swivel's axis like a castor: the axis leans, the axle is not quite square to the line, the weight
/// is off the axis.
inline Layout swivelling_redirect() {
  return layout_with("heron_gully.toml", "position = [1348.000, 911.000, 331.400]\naxle = [0.6, -0.8, 0]\n",
                     "position = [1348.000, 911.000, 331.400]\naxle = [0.6, -0.8, 0.01]\nmount = \"swivel\"\n"
                     "swivel_axis = [0.1, 0.05, 1]\nswivel_at = [1347.760, 910.820, 331.400]\nmass = \"3 kg\"\n"
                     "centre_of_mass = [\"0.02 m\", \"0.015 m\", \"-0.03 m\"]\n");
}

}  // namespace fairlead

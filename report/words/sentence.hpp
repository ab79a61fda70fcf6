// From a finding's numbers to the words that are printed.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "geometry/checks/check.hpp"
#include "report/dossier.hpp"

namespace fairlead::words {

/// The names in braces of a check's sentence or remedy, in their order.
std::vector<std::string_view> placeholders(std::string_view text);

/// `text` with every placeholder filled in: {value}, {bound}, {limit}, {travel}, {subject}, and the finding's facts by
/// name. A clause (up to a semicolon) that names something the finding does not have is left out; if that leaves
/// nothing, the text is given with "unknown" in its place.
std::string filled(std::string_view text, const Layout&, const Finding&, const Style&);

/// One plain sentence: what was found, by how much it misses its limit and whose limit that is, where, and why it
/// could not be told. "sheave R1: line 4.52 deg off the groove's plane at travel 0.00 m, 3.02 deg over the limit of
/// 1.50 deg (narrow groove, J. Doe)".
std::string sentence(const Layout&, const Finding&, const Style&);

/// Says a long reason why something could not be told once; after that where it was given.
class ReasonsOnce {
 public:
  Finding told(Finding);

 private:
  std::map<std::string, std::string_view> said_;  // and the check that said it first
};

/// What would help, where the finding failed and its check knows; otherwise empty.
std::string remedy(const Layout&, const Finding&, const Style&);

}  // namespace fairlead::words

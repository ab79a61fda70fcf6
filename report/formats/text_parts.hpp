// What the terminal's texts have in common.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "report/dossier.hpp"

namespace fairlead::text {

/// Whose layout it is, its file and digest, and the program: three lines.
std::string whose(const Layout&);

/// The findings, worst first, under their outcomes: some or all of a judgement's.
std::string findings_text(const Layout&, const std::vector<Finding>&, const Style&);

/// A blank line, the title, and every sentence as a list.
std::string list_text(std::string_view title, std::span<const std::string_view> sentences);

/// What was taken for granted, as such a list; empty where nothing was.
std::string assumptions_text(const Dossier&);

/// How a judgement ends: what was taken for granted, what was not looked at, and the cautions.
std::string closing_text(const Dossier&);

}  // namespace fairlead::text

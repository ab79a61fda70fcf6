// What a check judges, and by what: for those who want to know before they trust it.
#pragma once

#include <optional>
#include <string>

#include "geometry/checks/check.hpp"

namespace fairlead::words {

/// Title, what it says of whom, formula, source, the keys of the layout that hold its limit, what helps.
std::string explain(const Check&);

/// The keys of the layout that a check compares with, in words; empty for a check this list does not know.
std::string_view limit_keys_of(const Check&);

/// What is published of worn ropes, to choose a limit of a register's part by; none is ever assumed.
std::string_view wear_references();

/// Of the wear that a register's parts are judged by: "wear", or its columns "baseline_mm" and "least_mm". Nothing for
/// any other name.
std::optional<std::string> explain_wear(std::string_view name);

/// Every check by name and title, a line each, in the order of their weight.
std::string explain_all();

}  // namespace fairlead::words

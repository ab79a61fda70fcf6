// What a check judges, and by what: for those who want to know before they trust it.
#pragma once

#include <string>

#include "geometry/checks/check.hpp"

namespace fairlead::words {

/// Title, what it says of whom, formula, source, the keys of the layout that hold its limit, what helps.
std::string explain(const Check&);

/// The keys of the layout that a check compares with, in words; empty for a check this list does not know.
std::string_view limit_keys_of(const Check&);

/// Every check by name and title, a line each, in the order of their weight.
std::string explain_all();

}  // namespace fairlead::words

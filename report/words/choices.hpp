// The word an author writes for one of several choices.
#pragma once

#include <string_view>

#include "geometry/layout/field.hpp"

namespace fairlead::words {

/// The header with the choices' table is the caller's to include.
template <class Enum>
std::string_view choice_of(Enum value) {
  for (const auto& choice : choices_of<Enum>)
    if (choice.value == value) return choice.word;
  return "unknown";
}

}  // namespace fairlead::words

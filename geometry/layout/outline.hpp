// The tables of all sections as one tree, without the types they store: what the schema, the starting layout, the help
// and the command line walk.
#pragma once

#include <string_view>
#include <vector>

#include "geometry/layout/field.hpp"

namespace fairlead {

struct Outline {
  enum class Kind {
    words,
    number,
    range,
    point,
    displacement,
    size,
    per_axis,
    direction,
    curve,
    date,
    limit,
    choice,
    choices,
    reference,
    axes,
    joins,
    truth,
    route,
    table,
    tables
  };
  Key key;
  Kind kind{};
  std::vector<std::string_view> choices{};  ///< the words of a choice, or of several
  std::vector<Outline> keys{};              ///< of a table, of each of the tables, of a route's long form

  const Outline* find(std::string_view name) const;
};

/// The whole layout; its keys are the sections.
const Outline& layout_outline();
/// The same of a concept.
const Outline& concept_outline();

/// What such a value is and how it is written: "an angle, as \"1.5 deg\"".
std::string_view kind_words(Outline::Kind);

}  // namespace fairlead

// A layout as its tables tell it: every key with what it holds, whatever its type.
#pragma once

#include <string>
#include <vector>

#include "geometry/layout/field.hpp"
#include "geometry/layout/layout.hpp"

namespace fairlead {

/// What a key holds: words, numbers, or both.
struct Told {
  enum class Form {
    words,   ///< a text, a choice, a date, an id, or several of these
    number,  ///< one
    range,   ///< two, equal where one was written
    place,   ///< three: x, y, z in the site frame
    triple,  ///< three: of a size or direction, or along, across, up
    curve,   ///< x, y, x, y, ...
    limit    ///< one; the words are its basis
  };
  Form form{};
  std::string words{};
  std::vector<Quantity> numbers{};
  Place place{};
};

/// Whether both say the same, wherever it stands. Numbers are the same that differ by no more than reading one amount
/// in two units can make of it: four roundings.
bool same(const Told&, const Told&);

struct ToldKey {
  std::string name;  ///< "position", "envelope.width"
  const Key* key{};  ///< of its table
  Told told;
};

/// A section, or one item of a list.
struct ToldPart {
  std::string section;  ///< "anchor", "project.history"
  std::string id;       ///< empty where there is only one; of a waiver the check and its subject
  Place place{};
  std::vector<ToldKey> keys{};
};

/// In the order of the tables and of the file. Absent are keys not given and without a default, defaults that go with
/// such a key, and what follows from another key of its group (a pitch diameter from the tread).
std::vector<ToldPart> told(const Layout&);

}  // namespace fairlead

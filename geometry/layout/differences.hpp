// What two revisions of a layout say differently: comments, the order of keys and items, and how a number is written
// are no difference.
#pragma once

#include "geometry/layout/told.hpp"

namespace fairlead {

/// One key that holds something else, or holds something on one side only.
struct KeyChange {
  std::string name;  ///< "position", "envelope.width"
  const Key* key{};
  std::optional<Told> was, is;
};

/// Which way a limit went. unsaid: it is no limit, its number is the same, or another limit holds in its place.
enum class Strictness { unsaid, loosened, tightened };

/// A limit that is gone is loosened, one that is new tightened.
Strictness strictness(const KeyChange&);

/// A section or an item of a list that was added, removed or changed.
struct PartChange {
  std::string section, id;        ///< as in ToldPart
  std::optional<Place> was, is;   ///< where it stands; nothing where it does not
  std::vector<KeyChange> keys{};  ///< of a part added or removed all it holds
  std::string perhaps_renamed{};  ///< id of the one on the other side that stands where it does, or holds the same
};

/// Sections in the order of the tables; items by their id, those of `was` first. Of two items of one id the first of
/// either side is taken for the same.
std::vector<PartChange> differences(const Layout& was, const Layout& is);

}  // namespace fairlead

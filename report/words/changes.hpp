// What changed between two revisions of a layout, in words.
#pragma once

#include <string>

#include "report/changes.hpp"

namespace fairlead::words {

/// "anchor A3", "brake unit", "waiver of fleet-angle R1", "row B of the revision table".
std::string part_name(const std::string& section, const std::string& id);
std::string part_name(const PartChange&);

/// "from end kind"
std::string key_name(const std::string& name);

/// What a key holds: "45.00 kN (10116 lbf)", "3.00 deg (data sheet)", "east 12.345 m, north ...".
std::string shown(const Told&, const Layout&, const Style&);

/// "travel: 15.000 m, now 17.500 m", "mbs: not given, now 38.0 kN": with digits enough for the two to read differently.
std::string sentence(const KeyChange&, const Changes&, const Style&);

/// "wll 45.00 kN (10116 lbf); position east ...": all that a part holds which was added or removed.
std::string contents(const PartChange&, const Changes&, const Style&);

/// "[old.toml:12, new.toml:14]"; one place where the other side has none.
std::string places(const std::optional<Place>& was, const std::optional<Place>& is, const Changes&);
std::string places(const KeyChange&, const Changes&);

/// "anchor A3"; "sheave R1, swivel at"; "rest mark on the main line".
std::string name_of(const MovedPoint&);

/// "37.1 mm: 12.0 mm downstream, 35.0 mm to the left, 2.0 mm down"; all in one unit. Amounts that read 0 are left out.
std::string movement(const MovedPoint&, const Style&);

/// "anchor P2 moved, so along, across and up are not what they were: ..."; empty where they are.
std::string frame_change(const Changes&, const Style&);

/// "loosened", "tightened"; empty where it can not be said.
std::string_view word_for(Strictness);

}  // namespace fairlead::words

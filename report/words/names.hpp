// What things are called in print.
#pragma once

#include <string>

#include "geometry/checks/check.hpp"

namespace fairlead::words {

/// "sheave R1", "anchor A2", "main line".
std::string name_of(const Layout&, Item);
/// "R1", "A2"; for what there is only one of, its name.
std::string id_of(const Layout&, Item);
/// "guy G1", "pole M1": of an index into the members.
std::string member_words(const Layout&, int index);
/// "sheave", "main line", "brake unit".
std::string_view kind_of(Item::Kind);

/// "otter.toml:22", "command line"; the layout file alone for what stands nowhere in it.
std::string place_of(const Layout&, Place);
/// The same without the file's folder: on sheets, which are alike wherever a layout is read from.
std::string place_without_folder(const Layout&, Place);

/// "2025-03-09"
std::string date_of(Date);

/// What a finding comes to once waivers are counted, worst first.
enum class Outcome { fail, undetermined, not_judged, waived, pass };
inline constexpr Outcome all_outcomes[] = {Outcome::fail, Outcome::undetermined, Outcome::not_judged, Outcome::waived,
                                           Outcome::pass};
Outcome outcome_of(const Finding&);
/// "fail", "undetermined", "not judged", "waived", "pass".
std::string_view word_for(Outcome);
std::string_view word_for(Verdict);

/// The checks that gave no finding, in their order.
std::vector<const Check*> without_subject(std::span<const Finding>);

/// The checks that `fairlead arrest` tells: of riders on their way, how they stop, and the way back to ready.
std::span<const Check* const> arrest_checks();

/// A waiver's terms: "by J. Doe until 2026-01-31: net in place".
std::string terms_of(const Waiver&);

/// Whether anyone may look further at this rig, in one line: "NOT CLEARED: 2 fail, 1 undetermined, 3 not judged" or
/// "CLEARED by these checks: 14 pass, 1 waived (fleet-angle R1)". Cleared exactly when the exit status is 0; nothing
/// judged is nothing cleared. A concept clears nobody: "PASSED AS A FIRST ESTIMATE by these checks: 12 pass".
std::string headline(const Judged&);

}  // namespace fairlead::words

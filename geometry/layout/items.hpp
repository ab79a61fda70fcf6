// What a finding is about, looked up in its layout.
#pragma once

#include "geometry/layout/layout.hpp"

namespace fairlead {

/// The id an author gave, or null where there is only one of the kind.
const std::string* given_id(const Layout&, Item);

}  // namespace fairlead

// The scans that a layout names.
#pragma once

#include "geometry/layout/errors.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead {

/// Opens the scans of all structures, which are sound. What is wrong with a file becomes errors where its name is
/// written. Gives back the digests of their bytes, for the layout's own.
std::string open_scans(Layout&, const std::string& layout_name, const ScanSource&, const Work&, Errors&);

}  // namespace fairlead

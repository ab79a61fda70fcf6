// The scans that a layout names, and the mesh of its riders.
#pragma once

#include "geometry/layout/errors.hpp"
#include "geometry/layout/layout.hpp"
#include "geometry/layout/sections.hpp"
#include "geometry/tasks/work.hpp"

namespace fairlead {

/// Opens the scans of all structures and the mesh of the rider's body, where the sections are sound. What is wrong with
/// a file becomes errors where its name is written. Gives back the digests of their bytes, for the layout's own.
std::string open_scans(Layout&, const Unsound&, const std::string& layout_name, const ScanSource&, const Work&,
                       Errors&);

}  // namespace fairlead

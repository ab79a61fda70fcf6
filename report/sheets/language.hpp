// The language of a set's fixed texts.
#pragma once

#include <memory>

#include "geometry/layout/layout.hpp"
#include "report/drawing/wording.hpp"
#include "report/words/labels.hpp"

namespace fairlead::sheets {

/// Every fixed text with its pair, where it has one. Ids of a layout, what its author wrote in words, and what is
/// `written` elsewhere stay as they are.
std::shared_ptr<const drawing::Wording> wording_of(const words::Pairs&, const Layout&,
                                                   const std::vector<std::string>& written = {});

}  // namespace fairlead::sheets

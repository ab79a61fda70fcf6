// The parts that the list of all fixed texts is made of.
#pragma once

#include "report/words/labels.hpp"

namespace fairlead::words {

std::span<const LabelGroup> sheet_labels();
std::span<const LabelGroup> view_labels();
std::span<const LabelGroup> column_labels();
std::span<const LabelGroup> cell_labels();
std::span<const LabelGroup> crew_labels();
std::span<const LabelGroup> form_labels();

}  // namespace fairlead::words

#include "report/words/labels.hpp"

#include "report/words/cautions.hpp"
#include "report/words/label_parts.hpp"

namespace fairlead::words {

std::span<const LabelGroup> label_groups() {
  static const std::vector<LabelGroup> all = [] {
    std::vector<LabelGroup> groups;
    for (const std::span<const LabelGroup> part :
         {sheet_labels(), view_labels(), column_labels(), cell_labels(), crew_labels(), form_labels()})
      groups.insert(groups.end(), part.begin(), part.end());
    groups.push_back({"Cautions", cautions()});
    groups.push_back({"What is not looked at", not_checked()});
    return groups;
  }();
  return all;
}

}  // namespace fairlead::words

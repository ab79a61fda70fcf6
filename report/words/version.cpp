#include "report/words/version.hpp"

namespace fairlead::words {

std::string_view program_version() { return FAIRLEAD_VERSION; }

}  // namespace fairlead::words

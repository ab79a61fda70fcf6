// The forms that a rig in service is inspected by: a set of their own, made for this rig, to be filled in.
#pragma once

#include "geometry/records/records.hpp"
#include "report/sheets/sheet.hpp"

namespace fairlead::sheets {

/// The daily form, then the periodic one; the dossier with its setting out. What is expected stands beside the room for
/// what is found, what is open comes first.
std::vector<drawing::Sheet> compose_inspection(const Dossier&, const Records&, const Style&, const Office&);

/// What the owner of a register and a log wrote in them, as it stands on the forms: no text of ours, whatever it reads
/// like.
std::vector<std::string> written_in(const RecordsInput&);

}  // namespace fairlead::sheets

// What is looked at in service, day by day and from time to time: rows with what is expected, and cells to fill in.
#pragma once

#include "geometry/records/records.hpp"
#include "report/dossier.hpp"
#include "report/tables/table.hpp"

namespace fairlead::tables {

/// Before riders are sent: every part of this rig with what is expected of it, what is to be read, and what is open.
/// The dossier with its setting out. Columns without an entry are filled in by hand.
Table daily_inspection(const Dossier&, const Records&, const Style&);
/// Every part in service: serial, days left, wear against its limit, and room for what is found.
Table periodic_parts(const Dossier&, const Records&, const Style&);
/// What of the rig as a whole is measured again: the main line at its temperature, hand pulls, levels of the marks.
Table periodic_main_line(const Dossier&, const Style&);
Table periodic_hand_pulls(const Dossier&, const Style&);
Table periodic_marks(const Dossier&, const Style&);

}  // namespace fairlead::tables

// Every kind of sheet, each defined in the file of its name.
#pragma once

#include "report/sheets/sheet.hpp"

namespace fairlead::sheets {

extern const SheetKind general_arrangement, section_and_isometric_sheet, findings_sheet, reeving_sheet,
    setting_out_sheet, anchor_loads_sheet, schedules_sheet, main_line_sheet, clearances_sheet, arrest_chart_sheet,
    arrest_histories_sheet, arrest_corners_sheet, arrest_reset_sheet, calculation_sheet, reductions_sheet,
    as_built_record_sheet, trial_sheet, trial_record_sheet;

}  // namespace fairlead::sheets

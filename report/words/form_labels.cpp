// Fixed texts of inspection forms and as-built sheets.
#include "report/words/label_parts.hpp"

namespace fairlead::words {
namespace {

constexpr std::string_view inspection_forms[] = {
    "Daily inspection",
    "Periodic inspection",
    "Inspection form",
    "Daily inspection, before riders are sent",
    "Periodic inspection: parts in service",
    "Periodic inspection: main line, bare",
    "Periodic inspection: hand pulls",
    "Periodic inspection: levels of the marks",
    "look at",
    "expected",
    "found",
    "in order",
    "serial expected",
    "retire by",
    "inspect by",
    "as new",
    "diameter read",
    "cycles read",
    "next due",
    "temperature read",
    "read at the first",
    "at the second",
    "at the third",
    "moved by",
    "broken wires, rust, kinks, dents; terminations and their marks",
    "cuts, glazing, stiff places, knots; terminations; runs free in every groove",
    "turns free by hand, stands as set, groove smooth, keeper shut",
    "sheaves turn free, cheeks straight, pins secured",
    "gate shut and locked, no wear where it bears, loaded along its axis",
    "nothing moved, cracked, bent or worked loose; its members tight",
    "wheels round and free, pins and attachment whole, bumper in place",
    "fixings tight, line winds evenly, draws its line in by itself",
    "in place, armed, free of what is left on the line",
    "as built",
    "{1} as built",
    "none; free",
    "OPEN: {1}, found {2}: {3}",
    "closed in the log",
    "along the line",
    "across the line",
    "of the air",
    "{1} to {2}",
    "serial number",
    "not known",
    "certificate, due",
    "line out with the trolley at its mark",
    "stands at its rest mark, off by",
    "pull on it by hand",
    "pull on it along the main line, empty, at travel {1}",
    "{1} to {2}, and its rolling resistance",
    "the layout has none",
    "stands beyond the rest mark",
    "no date",
    "{1} d left",
    "{1} d over",
    "not in the register",
    "landing platform",
    "no limit",
    "This layout: {1}.",
    "Days left are counted from {1}.",
    "No date was stated, and no days left are counted.",
    "Write what is read with its unit, never what it should be. What was not looked at is not in order. What to look "
    "for is common practice; the makers' instructions ask for more.",
    "Expected: of this layout, as it was judged. Nobody rides before every row is in order, and what is not is in the "
    "log of findings.",
    "Diameters and what else is measured go into the file of measurements, what is found into the log, days and "
    "serials into the register: fairlead records judges them.",
    "A diameter is read where the part is worn most, twice, square to each other. No limit is assumed: one that is not "
    "in the register is not known.",
    "Day, time, temperature: {1}",
    "Inspected by, qualification: {1}",
    "Riders may be sent, by: {1}",
    "Kept in service, by: {1}",
};

constexpr std::string_view as_built_sheets[] = {
    "As built: marks",
    "As built: findings over the draws",
    "As-built record",
    "Points: {1}, SHA-256 {2}",
    "Measurements: {1}, SHA-256 {2}",
    "Compared with: {1}, SHA-256 {2}",
    "CONTROL POINTS",
    "MARKS AS BUILT",
    "MEASURED BESIDES",
    "NOT MEASURED, AND WHAT RESTS ON IT",
    "FINDINGS OVER THE DRAWS",
    "MOVED SINCE THE EARLIER SURVEY",
    "east off",
    "north off",
    "up off",
    "left",
    "back to its drawn place",
    "allowed along / across / up",
    "quantity",
    "measure",
    "findings left open",
    "passes",
    "fails",
    "shows from",
    "moved",
};

constexpr LabelGroup groups[] = {{"Inspection forms", inspection_forms}, {"As-built sheets", as_built_sheets}};

}  // namespace

std::span<const LabelGroup> form_labels() { return groups; }

}  // namespace fairlead::words

#include "report/words/cautions.hpp"

namespace fairlead::words {
namespace {

constexpr std::string_view list[] = {
    "The loads of an impact itself, which lasts no time in the model (those right after it are checked); an arrest "
    "while somebody rides a parallel line.",
    "The main line's own inertia and waves while riders roll and stop; wheels that lift off it as a rider "
    "swings; riders who hit the redirect, a block or the landing; what comes after a lanyard has gone slack.",
    "What the backup brake pulls on its anchor where the layout does not say; how a rider swings while it stops him.",
    "How riders are retrieved who are held back, roll back or hang short of the brake trolley.",
    "Friction of sheaves for which the layout gives none, of wheels on support lines, and of swivels and eyes; how "
    "friction changes with the wrap on the way.",
    "A carrier on a support line that leans: it keeps its block's attitude. Swivelling and free sheaves against "
    "structures.",
    "Clearance of riders upstream of their push-off.",
    "Clearance from what is neither a structure nor in a scan of the layout, and whether a scan is whole: it has no "
    "inside, so what lies wholly below its ground is as clear of it as what hangs above; trees grow and lean.",
    "Wind on blocks and the brake trolley and along the lines; on riders it counts along the main line, and across it "
    "beside structures and, on the open span, in what the anchors carry: in an arrest and with the backup brake they "
    "are in still air. Ice and storm on anything but the main lines. Other lines feel a side wind at rest alone, "
    "without that of the main line.",
    "Clearance from a parallel line and its riders, and from the main line behind its saddles.",
    "Vibration of lines and blocks; their inertia counts in the motion of the trolleys alone.",
    "What terminations, splices and sheaves take off the strength of lines where the layout gives no figure and none "
    "is published; the bending of main lines over saddles and under wheels.",
    "The strength of what the anchors stand on: towers, trees, rock and foundations; axles and frames but for their "
    "ratings.",
    "The weight of legs, guys and poles that hold an anchor, the wind on them, and the give of what they are fixed to.",
    "What moisture, creep and temperature do to the length of fibre and webbing lines.",
    "Fatigue and wear of ropes.",
};

}  // namespace

std::span<const std::string_view> not_checked() { return list; }

}  // namespace fairlead::words

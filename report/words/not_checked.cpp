#include "report/words/cautions.hpp"

namespace fairlead::words {
namespace {

constexpr std::string_view list[] = {
    "How riders stop: stopping travel, deceleration, swing, slack of the lanyard and what each rider feels. Riders "
    "hang upright in every clearance.",
    "Loads at the instant of contact and of any other shock; the peak tension is the most the brake unit can pull.",
    "Whether the backup brake alone stops the fastest, heaviest rider; what it pulls on its anchor where the layout "
    "does not say.",
    "Whether the brake trolley returns to its rest mark, how fast it returns, and how riders held back are retrieved.",
    "Friction of sheaves for which the layout gives none, of wheels on support lines, and of swivels and eyes; how "
    "friction changes with the wrap on the way.",
    "A carrier on a support line that leans: it keeps its block's attitude. Swivelling and free sheaves against "
    "structures.",
    "Clearance from trees, terrain and scans; structures are the boxes, posts and planes of the layout.",
    "Wind on riders, on blocks and along the lines; ice and storm on anything but the main lines. A side wind is "
    "looked "
    "at on lines at rest.",
    "Clearance from a parallel line and its riders, and from the main line behind its saddles.",
    "Vibration and inertia of lines and blocks.",
    "What terminations, splices and sheaves take off the strength of lines where the layout gives no figure and none "
    "is "
    "published; the bending of main lines over saddles and under wheels.",
    "The strength of what the anchors stand on: towers, trees, rock and foundations; axles and frames but for their "
    "ratings.",
    "The weight of legs, guys and poles that hold an anchor, the wind on them, and the give of what they are fixed to.",
    "What moisture, creep and temperature do to the length of fibre and webbing lines.",
    "Fatigue and wear of ropes.",
};

}  // namespace

std::span<const std::string_view> not_checked() { return list; }

}  // namespace fairlead::words

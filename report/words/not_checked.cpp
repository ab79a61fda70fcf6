#include "report/words/cautions.hpp"

namespace fairlead::words {
namespace {

constexpr std::string_view list[] = {
    "How riders stop: stopping travel, deceleration, swing, slack of the lanyard and what each rider feels.",
    "Loads at the instant of contact and of any other shock; the peak tension is the most the brake unit can pull.",
    "Whether the backup brake alone stops the fastest, heaviest rider.",
    "Whether the brake trolley returns to its rest mark, how fast it returns, and how riders held back are retrieved.",
    "Clearance of riders and lines from ground, structures, trees and each other.",
    "Strength of the main line, the braking line, sheaves and connectors; only anchors are judged by their ratings.",
    "Reductions above 1:1, travelling blocks and lines joined to one another.",
    "Friction of the sheaves: all lines are taken as running free.",
    "Stretch of the braking line under load.",
    "Wind and ice on riders and lines.",
    "Vibration and inertia of the main line.",
    "The strength of what the anchors stand on: towers, trees, rock and foundations.",
    "Fatigue, wear and terminations of ropes.",
};

}  // namespace

std::span<const std::string_view> not_checked() { return list; }

}  // namespace fairlead::words

#include "report/words/cautions.hpp"

namespace fairlead::words {
namespace {

constexpr std::string_view list[] = {
    "This is an aid to calculation, not an approval: nobody rides on the strength of it.",
    "Where they differ from anything here, the equipment makers' instructions, the local code and the licensed "
    "engineer prevail.",
    "Prove the arrest unmanned before any rider, then with graded loads up to the heaviest rider at the greatest "
    "speed.",
    "The backup brake is in place and armed whenever riders are sent.",
    "One rider at a time, unless the whole arrest was designed for more.",
    "Padding is no brake.",
    "Design factors hold for new rope: wear, corrosion, bending and terminations take from them.",
    "Inspect the main line, the braking line, sheaves, anchors and the brake unit every day before riders are sent.",
    "Have the brake unit recertified by its date.",
    "Only the load cases listed were computed; what is not listed was not looked at.",
};

}  // namespace

std::span<const std::string_view> cautions() { return list; }

}  // namespace fairlead::words

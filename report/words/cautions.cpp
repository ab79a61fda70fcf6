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

std::span<const std::string_view> first_estimate() {
  static constexpr std::string_view sentences[] = {
      "Predicted, untested, and a first estimate: no layout is judged by it, and no pass of it is one of a layout.",
      "The ratio is ideal at every place of the travel: no sheaves, no blocks, no lead of the lines out of the main "
      "line's direction, no sag or stretch of them. With coordinates the true ratio differs most at the rest mark, and "
      "the unit's line runs faster and farther.",
      "There is no path: the main line is straight and stiff, at one slope. It does not sag under the rider, so the "
      "trolley does not sink at contact and pay line out; cold, warm, taut and stretched are all one.",
      "There is no approach: riders arrive as fast as the concept aims at, their lanyards plumb.",
      "No anchor, clearance or strength is looked at.",
  };
  return sentences;
}

}  // namespace fairlead::words

#include "report/words/trial.hpp"

#include <fmt/format.h>

#include <cmath>

#include "report/words/names.hpp"
#include "report/words/numbers.hpp"

namespace fairlead::words {
namespace {

/// "4.10 to 5.20 m/s" of "4.10 m/s" and "5.20 m/s".
std::string joined(const std::string& low, const std::string& high) {
  const std::size_t blank = low.find(' ');
  const bool alike = blank != low.npos && high.ends_with(low.substr(blank)) && high.find(' ') == high.rfind(' ') &&
                     low.find(' ') == low.rfind(' ');
  if (low == high) return low;
  return (alike ? low.substr(0, blank) : low) + " to " + high;
}

}  // namespace

std::string_view name_of(Trialled what) {
  switch (what) {
    case Trialled::mass:
      return "mass as weighed";
    case Trialled::release:
      return "release, chainage";
    case Trialled::temperature:
      return "temperature";
    case Trialled::wind:
      return "wind along";
    case Trialled::arrival_speed:
      return "arrival speed";
    case Trialled::stopping_travel:
      return "stopping travel";
    case Trialled::extension:
      return "line out of the unit";
    case Trialled::line_tension:
      return "greatest line tension";
    case Trialled::pull_on:
      return "pull on";
    case Trialled::let_back:
      return "let back";
    case Trialled::return_time:
      return "time back to the mark";
    case Trialled::rest_shift:
      return "off its mark after return";
    case Trialled::returned:
      return "came back by itself";
    case Trialled::touches:
      return "things that touched";
    case Trialled::slack:
      return "lines seen slack";
    case Trialled::backup_reached:
      return "backup brake met";
  }
  return "";
}

std::string shown(const mainline::Span& span, Dimension dimension, const Style& style, double greatest) {
  const Quantity of = greater({greatest, dimension}, greater({span.low, dimension}, {span.high, dimension}));
  const auto in = [&](const Style& one) {
    const Alike alike(of, one, small_beside(of, greater({span.low, dimension}, {span.high, dimension})));
    return joined(alike.shown(span.low), alike.shown(span.high));
  };
  if (!in_both(dimension, style)) return in(style);
  return fmt::format("{} ({})", in({Units::si}), in({Units::us, style.tenths}));
}

std::string shown_beside(double si, Dimension dimension, const Style& style, double greatest) {
  const std::string beside = shown(mainline::Span{si, si}, dimension, style, greatest);
  const bool nought = beside.find_first_of("123456789") == std::string::npos;
  return nought && si != 0 ? shown({si, dimension}, style) : beside;
}

std::string shown(const trial::Acceptance& limit, Trialled what, const Style& style, double greatest) {
  const Dimension dimension = fairlead::kind_of(what).dimension;
  if (dimension == Dimension::none) return what == Trialled::returned ? "yes" : fmt::format("{:.0f}", limit.at);
  const std::string number = shown_beside(limit.at, dimension, style, greatest);
  switch (limit.sense) {
    case trial::Acceptance::Sense::at_most:
      return "at most " + number;
    case trial::Acceptance::Sense::at_least:
      return "at least " + number;
    case trial::Acceptance::Sense::size_at_most:
      break;
  }
  return "at most " + number + " either way";
}

std::string_view word_for(trial::Agreement agreement) {
  switch (agreement) {
    case trial::Agreement::not_measured:
      return "not measured";
    case trial::Agreement::not_predicted:
      return "not predicted";
    case trial::Agreement::within:
      return "as predicted";
    case trial::Agreement::too_rough:
      return "too rough to tell";
    case trial::Agreement::no_return:
      return "did not come back";
    case trial::Agreement::outside:
      break;
  }
  return "outside";
}

std::string_view meaning(Trialled what, bool above) {
  switch (what) {
    case Trialled::arrival_speed:
      return above ? "less rolling resistance or drag than the layout's range, more tail wind, or another sag"
                   : "more rolling resistance or drag than the layout's range, more head wind, or another sag";
    case Trialled::stopping_travel:
      return above ? "the brake holds less than its range allows, or it arrived faster: look at the arrival speed first"
                   : "the brake or the reeving holds more than allowed for: riders swing farther and feel more";
    case Trialled::extension:
      return above ? "the reduction pays out more than drawn, or it came farther: look at the stopping travel first"
                   : "the reduction pays out less than drawn, or it did not come as far";
    case Trialled::line_tension:
      return above ? "the unit drags more than its range allows: anchors carry more than they were judged for"
                   : "the unit drags less than its range allows";
    case Trialled::pull_on:
      return above ? "sheaves or wheels rub more, or the unit retracts harder than the layout says"
                   : "the ratio is higher, or the unit retracts less than the layout says";
    case Trialled::let_back:
      return above ? "the ratio is lower, or the unit retracts harder than the layout says"
                   : "sheaves or wheels rub more, or the unit retracts less than the layout says";
    case Trialled::return_time:
      return above ? "the trolley is hindered on its way back more than allowed for"
                   : "less drag on the way back than the layout says: it meets its mark faster";
    default:
      break;
  }
  return "";
}

std::string_view name_of(trial::Input what) {
  switch (what) {
    case trial::Input::brake:
      return "brake force";
    case trial::Input::rolling:
      return "rolling resistance";
    case trial::Input::drag:
      return "drag area";
    case trial::Input::pull:
      break;
  }
  return "pull of the reeving";
}

std::string told(const trial::Untold& way) {
  constexpr double least = 0.3;
  std::string words;
  for (std::size_t i = 0; i < way.direction.size(); ++i)
    if (std::abs(way.direction[i]) > least)
      words += fmt::format("{}{} {}", words.empty() ? "" : " with ", name_of(static_cast<trial::Input>(i)),
                           way.direction[i] > 0 ? "up" : "down");
  return words;
}

std::vector<std::string> trial_steps(const Rig& rig, const Style& style) {
  const Layout& layout = rig.layout;
  std::vector<std::string> steps{
      "Unmanned: nobody hangs on the main line. The arrest zone, the ground under the line and everything within reach "
      "of its lines are cleared and watched; one person gives the word, and anyone may call stop.",
      layout.backup_brake ? "The backup brake is rigged and armed before anything is let go, and looked at again "
                            "before each test."
                          : "The layout names no backup brake: without one that is rigged and armed no mass is let go.",
      "Someone licensed or qualified by the local code leads the tests. The makers' instructions for the brake unit, "
      "trolleys and lines prevail over this plan; where they or the code ask for more, heavier or other tests, those "
      "are made.",
      fmt::format(
          "Test masses hang as riders do, from the rider trolley and its lanyard, their centre of mass {} below "
          "the wheel, held together so that nothing shifts or falls; each is weighed.",
          shown(layout.riders.hanging_length_m, Dimension::length, style)),
      "Hand pulls come first: they check reeving, ratio and the way back before any mass moves. A spring balance along "
      "the main line reads them, drawn and let back slowly.",
      "Masses follow in the plan's order, from little energy to much; the next one only after everything at the one "
      "before was as predicted and accepted. Each is let go at rest, without a push.",
      "A release is where the fastest corner just arrives as fast as it says, so that no test arrives faster. Where "
      "measured arrivals are slower it may be moved up in steps, no farther than the slow release: riders faster than "
      "the fastest arrival that was measured stay untested."};
  if (const auto& wind = layout.site.wind_along_m_per_s)
    steps.push_back(
        fmt::format("No test in more than {} of wind along the line, nor below {} or above {}: outside of "
                    "these nothing is predicted.",
                    shown(*wind, Dimension::speed, style), shown(layout.site.coldest_K, Dimension::temperature, style),
                    shown(layout.site.warmest_K, Dimension::temperature, style)));
  else
    steps.emplace_back("No wind along the line is given in the layout: test in still air alone.");
  if (layout.brake_trolley.held_back && layout.brake_trolley.held_back->value)
    steps.emplace_back(
        "The device that holds the brake trolley back is let go by hand after the mass is off; the time back counts "
        "from there.");
  return steps;
}

std::vector<std::string> stop_criteria(const Rig& rig, const Style& style) {
  std::vector<std::string> all{
      "a number outside its predicted interval, on either side: also one that looks better than predicted",
      "anything touching that may not: lines, blocks, the mass, the trolleys, the structure",
      "the backup brake met",
      "the trolley not back at its mark by itself",
      "a line slack, out of its groove or rubbing",
      "a person in the cleared zone",
      "damage, slip of a termination or anchor, heat, a noise or a smell nobody expected"};
  if (const auto& wind = rig.layout.site.wind_along_m_per_s)
    all.push_back(fmt::format("more than {} of wind along the line", shown(*wind, Dimension::speed, style)));
  return all;
}

std::string headline(const Dossier& dossier) {
  std::string checks = headline(dossier.judged);
  if (!dossier.trial || trial::passed(*dossier.trial)) return checks;
  const Verdict tests = dossier.trial->results->verdict;
  if (tests != Verdict::pass)
    return fmt::format("NOT CLEARED by its unmanned tests: {}. Without them: {}", word_for(tests), checks);
  return fmt::format("NOT CLEARED with what its unmanned tests told. Without them: {}", checks);
}

int exit_status(const Dossier& dossier) {
  if (dossier.trial && !trial::passed(*dossier.trial)) return 1;
  return fairlead::exit_status(dossier.judged.findings);
}

}  // namespace fairlead::words

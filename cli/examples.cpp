#include "cli/examples.hpp"

#include <fmt/format.h>

namespace fairlead::cli {
namespace {

struct Example {
  std::string_view command, given, does;
};
constexpr Example examples[] = {
    {"new", "-o site.toml", "a layout to start from"},
    {"check", "site.toml", "findings, worst first"},
    {"check", "site.toml --format json", "findings and the whole solved state"},
    {"check", "site.toml --set sheave.R1.position='[12.0, 3.5, 8.25]'", "findings with one number changed"},
    {"draw", "site.toml -o site.pdf", "the drawing"},
    {"draw", "site.toml -o site/", "every sheet and table in every format"},
    {"draw", "site.toml --labels labels_de.toml -o de.pdf", "the drawing with its labels in another language"},
    {"compare", "issued.toml site.toml", "what changed, and what that does"},
    {"setout", "site.toml", "points, levels, lengths and tensions for the crew"},
    {"setout", "site.toml -o crew.pdf", "the crew's sheets, anchor by anchor"},
    {"arrest", "site.toml", "how every rider stops, and the way back"},
    {"asbuilt",
     "site.toml points.csv tapes.csv --order pnezd --unit m --uncertainty '3 mm' --control "
     "N1,N2,N3",
     "the rig as it was measured, judged anew"},
    {"asbuilt", "site.toml --measurements tapes.csv --control P1,P2,PEG1",
     "the same by tapes and a level alone, from marks that did not move"},
    {"records", "site.toml register.csv", "what is due, worn or out of date"},
    {"records", "site.toml register.csv -o forms.pdf", "forms to inspect this rig by"},
    {"trial", "site.toml", "the plan of unmanned tests, before anyone rides"},
    {"trial", "site.toml tests.csv", "what was measured at them against what was predicted"},
    {"new", "--concept -o idea.toml", "how riders are to stop, before anything has a place"},
    {"new", "--labels -o labels_xx.toml", "every label of the sheets, to be translated"},
    {"arrest", "idea.toml", "a first estimate of how they would"},
    {"explain", "fleet-angle", "what a check judges"},
    {"explain", "sheave.axle", "what a key means"},
};

}  // namespace

std::string help_foot(std::string_view command) {
  constexpr int column = 49;
  std::string text = "examples:\n";
  for (const Example& example : examples) {
    if (!command.empty() && example.command != command) continue;
    const std::string call = fmt::format("  fairlead {} {}", example.command, example.given);
    text += call.size() < column - 1 ? fmt::format("{:{}}{}\n", call, column, example.does)
                                     : fmt::format("{}\n{:{}}{}\n", call, "", column, example.does);
  }
  return text +
         "\nexit status: 0 cleared or done, 1 not cleared, 2 input or output unusable, 3 our own fault, 130 "
         "interrupted\nA calculation aid, not an approval.";
}

}  // namespace fairlead::cli
